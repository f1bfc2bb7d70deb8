/**
 * A comment's form as it comes in. Nothing is guessed: a form that does not say which bar, or names a try that was
 * never played, is refused in words, since a comment on the wrong bar would be worse than one that is sent again.
 */
import type { Request } from 'express';
import { InputError } from '../base/index.js';
import type { Bar, Score } from '../score/index.js';
import { LONGEST_COMMENT, type FiledRecording, type NewComment } from '../store/index.js';
import { readingOf } from './recordingAt.js';
import { scoreFile, type Room } from './shared.js';

/**
 * Bytes of one character in a form, at most: three in UTF-8 (two UTF-16 units that make one character have four), each
 * as "%E3" (URL standard, application/x-www-form-urlencoded).
 */
const BYTES_A_CHARACTER = 9;

/** How many times the longest comment still comes through, so that a text that is too long can be given back. */
const ROOM_FOR_LONGER = 12;

/** Largest form of a comment, bytes. */
export const LARGEST_COMMENT_FORM_BYTES = LONGEST_COMMENT * BYTES_A_CHARACTER * ROOM_FOR_LONGER;

/** A key as the page makes it. */
const KEY = /^[0-9a-f-]{36}$/;

/** A bar's place in `Score.bars`. */
const BAR = /^\d{1,6}$/;

/** Pass and attempt of a try, "2.1". */
const TRY = /^(\d{1,6})\.(\d{1,6})$/;

/** A text field of the form; an empty text where it is missing or sent twice. */
export function fieldOf(request: Request, name: string): string {
  const body: unknown = request.body;
  if (typeof body !== 'object' || body === null) return '';
  const value: unknown = Object.entries(body).find(([key]) => key === name)?.[1];
  return typeof value === 'string' ? value : '';
}

/**
 * A new comment from its form.
 * @throws InputError code `bad-value` where the form names no bar of the score, or no try that was played
 */
export async function commentFrom(room: Room, request: Request, recording: FiledRecording): Promise<NewComment> {
  const key = fieldOf(request, 'key');
  if (!KEY.test(key)) throw incomplete('The form was not complete.');
  if (fieldOf(request, 'whole') !== '') return { recordingId: recording.id, key, bars: ['', ''], barIndexes: [0, 0], whole: true, text: textIn(request) };
  const score = await room.pipeline.score(scoreFile(room.store, room.store.score(recording.scoreId)));
  const first = barAsked(score, fieldOf(request, 'from'));
  const end = fieldOf(request, 'to') === '' ? first : barAsked(score, fieldOf(request, 'to'));
  const last = end.index < first.index ? first : end;
  const visit = await tryAsked(room, recording, { barIndex: first.index, asked: fieldOf(request, 'try') });
  return { recordingId: recording.id, key, bars: [first.number, last.number], barIndexes: [first.index, last.index], ...visit, text: textIn(request) };
}

/** Ready sentences that a form may hold beside its box. */
const MOST_READY = 8;

/** What was written, and after it the ready sentences that were ticked (a page with script puts them into the box instead). */
function textIn(request: Request): string {
  const ready = Array.from({ length: MOST_READY }, (_, i) => fieldOf(request, `ready${i}`));
  return [fieldOf(request, 'text').trim(), ...ready].filter((part) => part !== '').join(' ');
}

/** The bar that a field of a form names by its place. @throws InputError code `bad-value` where it names none of the score */
export function barAsked(score: Score, field: string): Bar {
  if (!BAR.test(field)) throw incomplete('The form does not say which bar it is about.');
  const bar = score.bars[Number(field)];
  if (bar === undefined) throw incomplete('The score has no such bar.');
  return bar;
}

/**
 * Pass and attempt of the try that was chosen, both null for every try.
 * @throws InputError code `bad-value` where the bar was not played that time
 */
async function tryAsked(room: Room, recording: FiledRecording, { barIndex, asked }: { readonly barIndex: number; readonly asked: string }): Promise<Pick<NewComment, 'pass' | 'attempt'>> {
  if (asked === '') return { pass: null, attempt: null };
  const [pass, attempt] = (TRY.exec(asked) ?? []).slice(1).map(Number);
  const { measures } = await readingOf(room, recording);
  const played = measures.bars.find((bar) => bar.barIndex === barIndex && bar.pass === pass && bar.attempt === attempt);
  if (played === undefined) throw incomplete('The bar has no such try in this recording.');
  return { pass: played.pass, attempt: played.attempt };
}

/** A form that no page of the room sends as it stands now. */
function incomplete(sentence: string): InputError {
  return new InputError('bad-value', `${sentence} Open the page again and send once more.`);
}
