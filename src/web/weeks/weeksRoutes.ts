/** The address of a pupil's piece through the weeks. */
import { Router } from 'express';
import { marksAsked } from '../shownMarks.js';
import type { Room } from '../shared.js';
import { sendPage } from '../views.js';
import { weeksView } from './weeksPage.js';

/** One pupil and one piece. */
export function weeksRoutes(room: Room): Router {
  const router = Router();
  router.get('/pupils/:slug/pieces/:piece', (request, response, next) => {
    const pupil = room.store.pupil(request.params.slug);
    const recordings = pupil === null ? [] : room.store.recordings({ pupilId: pupil.id }).filter(({ piece }) => piece.slug === request.params.piece).reverse();
    const [first] = recordings;
    if (first === undefined) {
      next();
      return;
    }
    sendPage(response, { view: 'weeks', title: `${first.pupil.name}, ${first.piece.title}, through the weeks`, weeks: weeksView(room, recordings, marksAsked(request.query['aspect'])) });
  });
  return router;
}
