/** The address of a pupil's next lesson. */
import { Router } from 'express';
import type { Room } from '../shared.js';
import { sendPage } from '../views.js';
import { lessonView } from './lessonPage.js';

/** One page for each pupil on the lists. */
export function lessonRoutes(room: Room): Router {
  const router = Router();
  router.get('/pupils/:slug/lesson', (request, response, next) => {
    const pupil = room.store.pupil(request.params.slug);
    if (pupil === null || pupil.removedAt !== null) next();
    else sendPage(response, { view: 'lesson', title: `${pupil.name}, next lesson`, lesson: lessonView(room, pupil) });
  });
  return router;
}
