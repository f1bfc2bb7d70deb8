/** The page that shows a message to be copied: where there is no script, or the browser keeps its clipboard shut. */
import { Router } from 'express';
import { readingOf, recordingAt } from './recordingAt.js';
import { findAll, messageOf } from './reviewPage.js';
import { recordingAddress, type Room } from './shared.js';
import { sendPage } from './views.js';

/** The message of a review, or of one comment on it. */
export function messageRoutes(room: Room): Router {
  const router = Router();
  router.get('/pupils/:slug/recordings/:id/message', async (request, response, next) => {
    const recording = recordingAt(room, request.params);
    if (recording === null) {
      next();
      return;
    }
    const reading = await readingOf(room, recording);
    const found = findAll({ room, recording, reading, strand: null, removed: null });
    const one = found.comments.find(({ id }) => String(id) === request.query['comment']);
    sendPage(response, { view: 'message', title: 'A message', pupil: recording.pupil.name, address: recordingAddress(recording), message: one?.message.text ?? messageOf(recording, found) });
  });
  return router;
}
