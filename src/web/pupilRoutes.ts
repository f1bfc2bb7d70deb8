/**
 * One pupil from the teacher's side: what came in, piece by piece, newest first. Nothing is computed here;
 * the lines in words were made when the recordings were filed.
 */
import { Router } from 'express';
import { momentInWords } from './moments.js';
import { pieceAddress, recordingAddress, type Room } from './shared.js';
import { titlesOf } from './titles.js';
import { sendPage } from './views.js';

/** A pupil's page: pieces in hand, each with its recordings, newest first. */
export function pupilRoutes(room: Room): Router {
  const router = Router();
  router.get('/pupils/:slug', (request, response, next) => {
    const pupil = room.store.pupil(request.params.slug);
    if (pupil === null) {
      next();
      return;
    }
    const titles = titlesOf(room);
    const recordings = room.store.recordings({ pupilId: pupil.id });
    const pieces = [...new Map(recordings.map(({ piece }) => [piece.id, piece])).values()].map((piece) => ({
      title: piece.title,
      apart: titles.get(piece.id)?.apart ?? '',
      href: pieceAddress(piece.slug),
      recordings: recordings.filter((recording) => recording.piece.id === piece.id).map((recording) => ({
        href: recordingAddress(recording),
        line: recording.line,
        comments: recording.comments,
        when: momentInWords(recording.receivedAt, room.now()),
      })),
    }));
    sendPage(response, { view: 'pupil', title: pupil.name, pupil, pieces });
  });
  return router;
}
