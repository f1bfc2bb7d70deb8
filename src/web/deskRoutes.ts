/**
 * The first page of the room: what came in, and the one form through which files come in.
 */
import { Router, type Response } from 'express';
import { InputError } from '../base/index.js';
import { statusOf } from './errors.js';
import { fileUpload, type Filed, type FilingResult } from './filing.js';
import { momentInWords } from './moments.js';
import { pieceAddress, pupilAddress, recordingAddress, type Room } from './shared.js';
import { readUpload } from './upload.js';
import { sendPage } from './views.js';

/** The first page, and the form that takes files in. */
export function deskRoutes(room: Room): Router {
  const router = Router();
  router.get('/', (_request, response) => sendDesk(room, response, { filed: [] }));
  router.post('/files', async (request, response) => {
    const upload = await readUpload(request);
    if (upload.files.length === 0 && upload.refused.length === 0) {
      throw new InputError('empty', 'No file was chosen. Choose a score, a recording, or both, and send again.');
    }
    answer(room, response, await fileUpload(room, upload));
  });
  router.use('/files', (error: unknown, _request: unknown, response: Response, next: (error: unknown) => void) => {
    if (!(error instanceof InputError)) {
      next(error);
      return;
    }
    const { file = '' } = error.place;
    sendDesk(room, response, { filed: [{ file, text: error.message, ok: false, href: null }], status: statusOf(error) });
  });
  return router;
}

/**
 * One file that went well leads to its page; several, or any that failed, are told on the desk.
 */
function answer(room: Room, response: Response, result: FilingResult): void {
  const { filed } = result;
  const failed = filed.some((one) => !one.ok);
  const target = result.recordings.length === 1 ? filed.at(-1)?.href : result.recordings.length === 0 ? filed[0]?.href : null;
  if (!failed && target !== null && target !== undefined) response.redirect(303, target);
  else sendDesk(room, response, { filed, status: failed ? 422 : 200 });
}

/** Sends the desk, with what became of files that were just sent. */
function sendDesk(room: Room, response: Response, given: { readonly filed: readonly Filed[]; readonly status?: number }): void {
  const { store } = room;
  const cameIn = store.recordings().map((recording) => ({
    href: recordingAddress(recording),
    pupil: recording.pupil.name,
    piece: recording.piece.title,
    line: recording.line,
    comments: recording.comments,
    when: momentInWords(recording.receivedAt, room.now()),
    invented: recording.pupil.invented,
  }));
  sendPage(response, {
    view: 'desk',
    title: 'Desk',
    status: given.status ?? 200,
    filed: given.filed,
    cameIn,
    pupils: store.pupils().map((pupil) => ({ ...pupil, href: pupilAddress(pupil.slug) })),
    pieces: store.pieces().map((piece) => ({ ...piece, href: pieceAddress(piece.slug) })),
    invented: store.pupils().some((pupil) => pupil.invented),
  });
}
