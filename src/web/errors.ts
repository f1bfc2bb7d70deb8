/**
 * What a person sees when something cannot be done, and what the log may know of it. An `InputError` is about
 * files or forms and is told in its own words; everything else is our mistake and is told in general words.
 */
import type { ErrorRequestHandler, RequestHandler } from 'express';
import { InputError, sentenceCase, word, type InputErrorCode, type Language } from '../base/index.js';
import type { Room } from './shared.js';
import { sendPage } from './views.js';

/** What each kind of bad input answers with (RFC 9110 section 15.5; RFC 4918 section 11.5 for a full disk). */
const STATUS: Readonly<Record<InputErrorCode, number>> = {
  'empty': 422,
  'not-a-score': 422,
  'not-a-recording': 422,
  'not-well-formed': 400,
  'bad-value': 422,
  'too-large': 413,
  'unsupported': 422,
  'no-notes': 422,
  'no-such-part': 422,
  'not-found': 404,
  'wrong-piece': 422,
  'not-saved': 507,
};

/**
 * The error for a page: which file, which bar, and the sentence. A place in bytes or lines of text is nothing that a
 * teacher could look up in a score.
 * @param known the file that the page names already
 */
export function told({ message, place: { file, bar } }: InputError, language: Language, known?: string): string {
  const where = [file === known ? undefined : file, bar === undefined ? undefined : sentenceCase(`${word('bar', language)} ${bar}`)];
  return [...where, message].filter((part) => part !== undefined).join(': ');
}

/** The status of a typed error. */
export function statusOf(error: InputError): number {
  return STATUS[error.code];
}

/** Addresses that lead nowhere. */
export function nothingHere(): RequestHandler {
  const text = 'It may have been mistyped. The desk shows everything that came in.';
  return (_request, response) => sendPage(response, { view: 'error', title: 'Not here', status: 404, heading: 'Nothing is at this address', text });
}

/**
 * Turns what was thrown into a page in words.
 */
export function errorPage(room: Room): ErrorRequestHandler {
  return (error: unknown, _request, response, next) => {
    if (response.headersSent) {
      next(error);
      return;
    }
    const { status, text } = inWords(room, error);
    const advice = error instanceof InputError ? '' : ' Go back and try once more.';
    sendPage(response, { view: 'error', title: 'Not done', status, heading: 'This could not be done', text: text + advice });
  };
}

/**
 * What a person may be told of an error, and the status it goes out with. Only kinds of error are logged: messages
 * could hold what a person wrote.
 */
export function inWords(room: Room, error: unknown): { readonly status: number; readonly text: string } {
  if (error instanceof InputError) return { status: statusOf(error), text: told(error, room.language) };
  const status = statusGiven(error);
  if (status === 413) return { status, text: 'What was sent is too long.' };
  if (status < 500) return { status, text: 'The request could not be read.' };
  room.log(`error ${kindOf(error)}`);
  return { status, text: 'Something went wrong inside Barwise. Nothing that was saved is lost.' };
}

/** A client error's own status (bodies too large, malformed addresses), else 500. */
function statusGiven(error: unknown): number {
  const status = typeof error === 'object' && error !== null && 'status' in error ? error.status : null;
  return typeof status === 'number' && status >= 400 && status < 500 ? status : 500;
}

/** Name of the error and where in our code it came from, without its message. */
function kindOf(error: unknown): string {
  if (!(error instanceof Error)) return 'of no known kind';
  const frame = (error.stack ?? '').split('\n').find((line) => /^\s+at /.test(line)) ?? '';
  return `${error.name} ${frame.trim()}`;
}
