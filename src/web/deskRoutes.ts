/**
 * The first page of the room: what came in, and the one form through which files come in.
 */
import { Router } from 'express';
import { InputError } from '../base/index.js';
import { inWords } from './errors.js';
import { fileUpload, type Filed, type FilingResult } from './filing.js';
import { momentInWords } from './moments.js';
import { replyTo, type Reply } from './progress.js';
import { pieceAddress, pupilAddress, recordingAddress, type Room } from './shared.js';
import { titlesOf } from './titles.js';
import { readUpload } from './upload.js';
import { sendPage, type PageParts } from './views.js';

/** The first page, and the form that takes files in. */
export function deskRoutes(room: Room): Router {
  const router = Router();
  router.get('/', (_request, response) => sendPage(response, deskPage(room, { filed: [] })));
  router.post('/files', async (request, response) => {
    const reply = replyTo(request, response);
    try {
      const upload = await readUpload(request, reply.tell);
      if (upload.files.length === 0 && upload.refused.length === 0) {
        throw new InputError('empty', 'No file was chosen. Choose a score, a recording, or both, and send again.');
      }
      answer(room, reply, await fileUpload(room, upload, reply.tell));
    } catch (error) {
      if (!reply.inLines && !(error instanceof InputError)) throw error;
      const { status, text } = inWords(room, error);
      reply.page(deskPage(room, { filed: [{ file: '', text, ok: false, href: null }], status }));
    }
  });
  return router;
}

/**
 * One file that went well leads to its page; several, or any that failed, are told on the desk.
 */
function answer(room: Room, reply: Reply, result: FilingResult): void {
  const { filed } = result;
  const failed = filed.some((one) => !one.ok);
  const target = result.recordings.length === 1 ? filed.at(-1)?.href : result.recordings.length === 0 ? filed[0]?.href : null;
  if (!failed && target !== null && target !== undefined) reply.goTo(target);
  else reply.page(deskPage(room, { filed, status: failed ? 422 : 200 }));
}

/** The desk, with what became of files that were just sent. */
function deskPage(room: Room, given: { readonly filed: readonly Filed[]; readonly status?: number }): PageParts {
  const { store } = room;
  const titles = titlesOf(room);
  const cameIn = store.recordings().map((recording) => ({
    href: recordingAddress(recording),
    pupil: recording.pupil.name,
    piece: recording.piece.title,
    apart: titles.get(recording.piece.id)?.apart ?? '',
    line: recording.line,
    comments: recording.comments,
    when: momentInWords(recording.receivedAt, room.now()),
    invented: recording.pupil.invented,
  }));
  return {
    view: 'desk',
    title: 'Desk',
    status: given.status ?? 200,
    filed: given.filed,
    cameIn,
    pupils: store.pupils().map((pupil) => ({ ...pupil, href: pupilAddress(pupil.slug) })),
    pieces: store.pieces().map((piece) => ({ ...piece, apart: titles.get(piece.id)?.apart ?? '', whole: titles.get(piece.id)?.whole ?? piece.title, href: pieceAddress(piece.slug) })),
    invented: store.pupils().some((pupil) => pupil.invented),
  };
}
