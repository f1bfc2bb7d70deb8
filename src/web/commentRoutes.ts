/**
 * Writing about bars. The rule of this file: the answer goes out after the store has returned, so whoever
 * reads "saved" can pull the plug. Every form works without script; the page's script sends the same forms and
 * asks for JSON.
 */
import { Router, urlencoded, type Request, type Response } from 'express';
import { InputError } from '../base/index.js';
import { barNames } from '../review/index.js';
import type { Comment, FiledRecording } from '../store/index.js';
import { barAnchors } from './anchors.js';
import { statusOf } from './errors.js';
import { recordingAt } from './reviewRoutes.js';
import { recordingAddress, scoreFile, type Room } from './shared.js';
import { sendPage } from './views.js';

/** Largest form of a comment, bytes: four for each of its characters, and room for the rest. */
const LARGEST_FORM_BYTES = 64 * 1024;

/** A key as the page makes it. */
const KEY = /^[0-9a-f-]{36}$/;

/**
 * Writing, changing, taking off and putting back. Forms come back to their bar; scripts get a
 * short answer.
 */
export function commentRoutes(room: Room): Router {
  const router = Router();
  const form = urlencoded({ extended: false, limit: LARGEST_FORM_BYTES, parameterLimit: 20 });
  const base = '/pupils/:slug/recordings/:id/comments';
  router.post(base, form, (request, response, next) => writing(room, { request, response, next }, (recording) => write(room, request, recording)));
  router.post(`${base}/:comment`, form, (request, response, next) => writing(room, { request, response, next }, (recording) => {
    return room.store.editComment(commentAt(room, request, recording).id, fieldOf(request, 'text'));
  }));
  router.post(`${base}/:comment/remove`, form, (request, response, next) => writing(room, { request, response, next }, (recording) => {
    return room.store.removeComment(commentAt(room, request, recording).id);
  }));
  router.post(`${base}/:comment/restore`, form, (request, response, next) => writing(room, { request, response, next }, (recording) => {
    return room.store.restoreComment(commentAt(room, request, recording).id);
  }));
  return router;
}

/** One request. */
interface Turn {
  readonly request: Request;
  readonly response: Response;
  readonly next: () => void;
}

/**
 * Does the work, which is on the disk when it returns, and only then answers. What was typed
 * comes back where it fails.
 */
async function writing(room: Room, { request, response, next }: Turn, work: (recording: FiledRecording) => Comment | Promise<Comment>): Promise<void> {
  const recording = recordingAt(room, { slug: String(request.params['slug']), id: String(request.params['id']) });
  if (recording === null) {
    next();
    return;
  }
  try {
    const comment = await work(recording);
    await answer(room, { request, response, next }, { recording, comment });
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    refuse({ request, response, next }, recording, error);
  }
}

/** A new comment from its form. */
async function write(room: Room, request: Request, recording: FiledRecording): Promise<Comment> {
  const key = fieldOf(request, 'key');
  if (!KEY.test(key)) throw new InputError('bad-value', 'The form was not complete. Open the page again and send once more.');
  const score = await scoreOf(room, recording);
  const from = Number(fieldOf(request, 'from'));
  const to = Math.max(from, Number(fieldOf(request, 'to') || from));
  const [first, last] = [score.bars[from], score.bars[to]];
  if (first === undefined || last === undefined) throw new InputError('bad-value', 'The score has no such bar. Open the page again and send once more.');
  const [pass, attempt] = /^\d+\.\d+$/.test(fieldOf(request, 'try')) ? fieldOf(request, 'try').split('.').map(Number) : [];
  return room.store.addComment({
    recordingId: recording.id, key, bars: [first.number, last.number], barIndexes: [from, to], pass: pass ?? null, attempt: attempt ?? null, text: fieldOf(request, 'text'),
  });
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
  const score = await scoreOf(room, recording);
  const anchor = barAnchors(score)[comment.barIndexes[0]] ?? 'score';
  if (wantsJson(request)) {
    response.json({ id: comment.id, where: barNames(score, room.language).range(...comment.barIndexes), href: `#${anchor}`, text: comment.text });
    return;
  }
  const removed = comment.removedAt === null ? '' : `?removed=${comment.id}`;
  response.redirect(303, `${recordingAddress(recording)}${removed}#${anchor}`);
}

/** Says what was wrong, and gives back what was typed. */
function refuse({ request, response }: Turn, recording: FiledRecording, error: InputError): void {
  const status = statusOf(error);
  if (wantsJson(request)) {
    response.status(status).json({ error: error.message });
    return;
  }
  sendPage(response, {
    view: 'refused', title: 'Not saved', status, text: error.message, address: recordingAddress(recording), action: request.originalUrl,
    fields: ['key', 'from', 'to', 'try'].map((name) => ({ name, value: fieldOf(request, name) })).filter(({ value }) => value !== ''),
    typed: fieldOf(request, 'text'),
  });
}

/** The score of a recording. */
async function scoreOf(room: Room, recording: FiledRecording) {
  return room.pipeline.score(scoreFile(room.store, room.store.score(recording.scoreId)));
}

/** True where the page's script asks. */
function wantsJson(request: Request): boolean {
  return request.accepts(['html', 'json']) === 'json';
}

/** A text field of the form; an empty text where it is missing or sent twice. */
function fieldOf(request: Request, name: string): string {
  const body: unknown = request.body;
  if (typeof body !== 'object' || body === null) return '';
  const value: unknown = Object.entries(body).find(([key]) => key === name)?.[1];
  return typeof value === 'string' ? value : '';
}
