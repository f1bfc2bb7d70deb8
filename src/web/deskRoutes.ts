/**
 * The first page of the room: what came in, and the one form through which files come in.
 */
import { Router } from 'express';
import { InputError } from '../base/index.js';
import { deskPage } from './deskPage.js';
import { inWords } from './errors.js';
import { fileUpload, type FilingResult } from './filing.js';
import { replyTo, type Reply } from './progress.js';
import type { Room } from './shared.js';
import { readUpload } from './upload.js';
import { sendPage } from './views.js';

/** The first page, and the form that takes files in. */
export function deskRoutes(room: Room): Router {
  const router = Router();
  router.get('/', (request, response) => sendPage(response, deskPage(room, { filed: [], query: request.query })));
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
      reply.page(deskPage(room, { filed: [{ file: '', text, ok: false, href: null, guessed: null }], status }));
    }
  });
  return router;
}

/** One file that went well, and where nothing was guessed, leads to its page; everything else is told on the desk. */
function answer(room: Room, reply: Reply, { filed, found }: FilingResult): void {
  const failed = filed.some((one) => !one.ok);
  const takes = filed.filter(({ href }) => href?.includes('/recordings/') === true);
  const target = takes.length === 0 ? filed[0] : takes.length === 1 ? takes[0] : undefined;
  const waits = filed.some(({ ok, href }) => ok && href === null);
  if (!failed && !waits && found.length === 0 && target !== undefined && target.href !== null && target.guessed === null) reply.goTo(target.href);
  else reply.page(deskPage(room, { filed: [...filed, ...found], status: failed ? 422 : 200 }));
}
