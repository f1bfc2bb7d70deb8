/**
 * Writing about bars. The rules of this file: the answer goes out after the store has returned, so whoever reads
 * "saved" can pull the plug; and whatever keeps a text from being saved, the text comes back. Every form works without
 * script; the page's script sends the same forms and asks for JSON.
 */
import { Router, urlencoded, type NextFunction, type Request, type Response } from 'express';
import { InputError } from '../base/index.js';
import { barNames, type BarNames } from '../score/index.js';
import type { Comment, FiledRecording } from '../store/index.js';
import { barAnchors } from './anchors.js';
import { commentFrom, fieldOf, LARGEST_COMMENT_FORM_BYTES } from './commentForm.js';
import { barsInWords } from './commentViews.js';
import { inWords } from './errors.js';
import { recordingOf } from './recordingAt.js';
import { pupilAddress, recordingAddress, scoreFile, type Room } from './shared.js';
import { sendPage } from './views.js';

/** Where a recording's comments are written; what is done to one of them follows its number. */
const COMMENTS = '/pupils/:slug/recordings/:id/comments';

/**
 * Writing, changing, taking off and putting back. Forms come back to their bar; scripts get a
 * short answer.
 */
export function commentRoutes(room: Room): Router {
  const router = Router();
  const { store } = room;
  const form = urlencoded({ extended: false, limit: LARGEST_COMMENT_FORM_BYTES, parameterLimit: 20 });
  const on = (path: string, work: (request: Request, recording: FiledRecording) => Comment | Promise<Comment>): void => {
    router.post(COMMENTS + path, form, (request, response) => writing(room, { request, response }, work));
  };
  on('', async (request, recording) => store.addComment(await commentFrom(room, request, recording)));
  on('/:comment', (request, recording) => store.editComment(commentAt(room, request, recording).id, fieldOf(request, 'text')));
  on('/:comment/remove', (request, recording) => store.removeComment(commentAt(room, request, recording).id));
  on('/:comment/settle', (request, recording) => store.setSettled(commentAt(room, request, recording).id, true));
  on('/:comment/reopen', (request, recording) => store.setSettled(commentAt(room, request, recording).id, false));
  on('/:comment/restore', (request, recording) => store.restoreComment(commentAt(room, request, recording).id));
  router.use(COMMENTS, (error: unknown, request: Request, response: Response, next: NextFunction) => {
    if (response.headersSent) next(error);
    else refuse(room, { request, response }, error);
  });
  return router;
}

/** One request. */
interface Turn {
  readonly request: Request;
  readonly response: Response;
}

/**
 * Does the work, which is on the disk when it returns, and only then answers. What was typed
 * comes back where it fails.
 */
async function writing(room: Room, turn: Turn, work: (request: Request, recording: FiledRecording) => Comment | Promise<Comment>): Promise<void> {
  const { request } = turn;
  const recording = recordingOf(room, request);
  const comment = await work(request, recording);
  // whoever writes of it has heard it
  room.store.setHeard(recording.id, true);
  await answer(room, turn, { recording, comment });
}

/** The comment of an address. @throws InputError code `not-found` */
function commentAt(room: Room, request: Request, recording: FiledRecording): Comment {
  const asked = String(request.params['comment']);
  const comment = /^\d{1,12}$/.test(asked) ? room.store.comment(Number(asked)) : null;
  if (comment?.recordingId !== recording.id) throw new InputError('not-found', 'This comment is not here.');
  return comment;
}

/** Back to the bar; for scripts the number, and the bars in words. */
async function answer(room: Room, { request, response }: Turn, done: { recording: FiledRecording; comment: Comment }): Promise<void> {
  const { recording, comment } = done;
  const { names, anchors } = comment.whole ? { names: null, anchors: [] } : await placesOf(room, recording);
  const anchor = comment.whole ? 'comments' : (anchors[comment.barIndexes[0]] ?? 'score');
  if (wantsJson(request)) {
    response.json({ id: comment.id, where: barsInWords(comment, { names, anchors, language: room.language }), href: `#${anchor}`, text: comment.text });
    return;
  }
  const elsewhere = { desk: `/#recording-${recording.id}`, pupil: pupilAddress(recording.pupil.slug) }[fieldOf(request, 'back')];
  if (elsewhere !== undefined) {
    response.redirect(303, elsewhere);
    return;
  }
  const removed = comment.removedAt === null ? '' : `?removed=${comment.id}`;
  response.redirect(303, `${recordingAddress(recording)}${removed}#${anchor}`);
}

/** How the bars are called; nothing is read for a comment that is about none. A score that is gone by now must not make a saved comment look unsaved: it has no bars then. */
async function placesOf(room: Room, recording: FiledRecording): Promise<{ readonly names: BarNames | null; readonly anchors: readonly string[] }> {
  try {
    const score = await room.pipeline.score(scoreFile(room.store, room.store.score(recording.scoreId)));
    return { names: barNames(score, room.language), anchors: barAnchors(score) };
  } catch (error) {
    if (error instanceof InputError) return { names: null, anchors: [] };
    throw error;
  }
}

/** Says what was wrong, and gives back what was typed. */
function refuse(room: Room, { request, response }: Turn, error: unknown): void {
  const { status, text } = inWords(room, error);
  if (wantsJson(request)) {
    response.status(status).json({ error: text });
    return;
  }
  // a body that was not read holds nothing to give back: the browser has it, one page before
  const unread = { view: 'error', heading: 'Not saved yet', text: `${text} Go back: what you wrote is still in its box.` };
  sendPage(response, { title: 'Not saved', status, ...(request.body === undefined ? unread : { view: 'refused', text, ...formAgain(request) }) });
}

/** The form as it came, ready to be sent once more. */
function formAgain(request: Request) {
  const [path = ''] = request.originalUrl.split('?');
  return {
    action: path,
    address: path.replace(/\/comments(\/\d+(\/\w+)?)?$/, ''),
    fields: ['key', 'whole', 'from', 'to', 'try', 'back'].map((name) => ({ name, value: fieldOf(request, name) })).filter(({ value }) => value !== ''),
    typed: /\/(remove|restore|settle|reopen)$/.test(path) ? null : fieldOf(request, 'text'),
  };
}

/** True where the page's script asks. */
function wantsJson(request: Request): boolean {
  return request.accepts(['html', 'json']) === 'json';
}
