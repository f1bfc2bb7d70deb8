/** The lesson sheet of a recording: shown, changed, printed. What is saved is on the disk when the answer goes out. */
import { Router, urlencoded, type Request, type Response } from 'express';
import { InputError } from '../../base/index.js';
import { statusOf, told } from '../errors.js';
import { readingOf, recordingOf } from '../recordingAt.js';
import type { Room } from '../shared.js';
import { sendPage } from '../views.js';
import { writeBody } from './sheetBody.js';
import { bodyFrom, LARGEST_SHEET_FORM_BYTES } from './sheetForm.js';
import { sheetAddress, sheetView } from './sheetPage.js';

/** Showing and saving. The page's script asks for JSON; without it the form comes back as the page. */
export function sheetRoutes(room: Room): Router {
  const router = Router();
  const form = urlencoded({ extended: false, limit: LARGEST_SHEET_FORM_BYTES, parameterLimit: 40 });
  router.get('/pupils/:slug/recordings/:id/sheet', async (request, response) => {
    const recording = recordingOf(room, request);
    const sheet = await sheetView(room, recording, await readingOf(room, recording));
    sendPage(response, { view: 'lessonSheet', title: `Lesson sheet, ${recording.pupil.name}, ${recording.piece.title}`, sheet });
  });
  router.post('/pupils/:slug/recordings/:id/sheet', form, (request, response) => save(room, request, response));
  return router;
}

/** Saves, then answers. What cannot be kept is said in words, and stays in the form. */
async function save(room: Room, request: Request, response: Response): Promise<void> {
  const recording = recordingOf(room, request);
  const asksJson = request.accepts(['html', 'json']) === 'json';
  try {
    const { score } = await readingOf(room, recording);
    room.store.saveLessonSheet(recording.id, writeBody(bodyFrom(request, score)));
    if (asksJson) response.json({ saved: true });
    else response.redirect(303, sheetAddress(recording));
  } catch (error) {
    if (!asksJson || !(error instanceof InputError)) throw error;
    response.status(statusOf(error)).json({ error: told(error, room.language) });
  }
}
