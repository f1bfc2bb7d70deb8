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
    const [pupil, piece] = [room.store.pupil(request.params.slug), room.store.piece(request.params.piece)];
    const recordings = pupil === null || piece === null ? [] : room.store.recordings({ pupilId: pupil.id, pieceId: piece.id }).toReversed();
    const [first] = recordings;
    if (first === undefined) {
      next();
      return;
    }
    sendPage(response, { view: 'weeks', title: `${first.pupil.name}, ${first.piece.title}, through the weeks`, weeks: weeksView(room, recordings, marksAsked(request.query['aspect'])) });
  });
  return router;
}
