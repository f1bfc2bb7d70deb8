/**
 * One pupil from the teacher's side: the page, and what is changed there: the name, the lesson, on the lists or off them, deleted for
 * good. Nothing is computed here; what is said of recordings was found out when they were filed.
 */
import { Router, urlencoded, type Request } from 'express';
import type { Lesson, Pupil } from '../store/index.js';
import { fieldOf } from './commentForm.js';
import { pupilPage } from './pupilPage.js';
import { pupilOf } from './recordingAt.js';
import { pupilAddress, type Room } from './shared.js';
import { sendPage } from './views.js';

/** Largest form, bytes: a name. */
const LARGEST_FORM = 4096;

/** The page, and everything that is done from it. */
export function pupilRoutes(room: Room): Router {
  const router = Router();
  router.get('/pupils/:slug', (request, response, next) => {
    const pupil = room.store.pupil(request.params.slug);
    if (pupil === null) next();
    else if (pupil.removedAt !== null) sendPage(response, { view: 'pupilAway', title: pupil.name, pupil, address: pupilAddress(pupil.slug) });
    else sendPage(response, pupilPage(room, pupil, request.query));
  });
  changes(room, router);
  erasing(room, router);
  return router;
}

/** Name, lesson, on the lists or off them. */
function changes(room: Room, router: Router): void {
  const { store } = room;
  const on = (path: string, work: (pupil: Pupil, request: Request) => Pupil): void => {
    router.post(`/pupils/:slug/${path}`, urlencoded({ extended: false, limit: LARGEST_FORM, parameterLimit: 6 }), (request, response) => {
      response.redirect(303, pupilAddress(work(pupilOf(room, request), request).slug));
    });
  };
  on('name', ({ id }, request) => store.renamePupil(id, fieldOf(request, 'name')));
  on('lesson', ({ id }, request) => store.setLesson(id, lessonFrom(request)));
  on('remove', ({ id }) => store.removePupil(id));
  on('restore', ({ id }) => store.restorePupil(id));
}

/** Deleting for good: asked on a page of its own, done where the name was typed. */
function erasing(room: Room, router: Router): void {
  router.get('/pupils/:slug/erase', (request, response) => {
    const pupil = pupilOf(room, request);
    sendPage(response, { view: 'erase', title: `Delete ${pupil.name}`, pupil, address: pupilAddress(pupil.slug), ...belongings(room, pupil), wrong: false });
  });
  router.post('/pupils/:slug/erase', urlencoded({ extended: false, limit: LARGEST_FORM, parameterLimit: 6 }), async (request, response) => {
    const pupil = pupilOf(room, request);
    if (fieldOf(request, 'name').trim() !== pupil.name) {
      sendPage(response, { view: 'erase', title: `Delete ${pupil.name}`, status: 422, pupil, address: pupilAddress(pupil.slug), ...belongings(room, pupil), wrong: true });
      return;
    }
    await room.forget(room.store.erase('pupils', pupil.id));
    response.redirect(303, '/?erased=yes');
  });
}

/** How much there is of a pupil. */
function belongings({ store }: Room, { id }: Pupil) {
  return { recordings: store.countRecordings({ pupilId: id }) + store.countRecordings({ pupilId: id, removed: true }), comments: store.commentsOfPupil(id).length };
}

/** The lesson as it was chosen; null for no fixed day. */
function lessonFrom(request: Request): Lesson | null {
  const day = fieldOf(request, 'day');
  if (day === '') return null;
  const time = fieldOf(request, 'time');
  return { day: Number(day), time: time === '' ? null : time };
}
