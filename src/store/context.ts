import { InputError } from '../base/index.js';
import type { Database } from './driver.js';
import type { FileKeeper } from './files.js';

/** What the tables' functions work with; the clock comes in from outside. */
export interface StoreContext {
  readonly database: Database;
  readonly files: FileKeeper;
  /** The present moment. */
  readonly now: () => Date;
}

/** Longest name or title, characters: generous for a full name, short enough for a page. */
export const LONGEST_NAME = 200;

/** The present moment as it is stored. */
export function moment(context: StoreContext): string {
  return context.now().toISOString();
}

/**
 * A name as it is kept: control characters and stray spaces taken out, otherwise as typed.
 * @param what whose name, for the sentence ("pupil’s name")
 * @throws InputError code `empty` or `too-large`
 */
export function tidyName(name: string, what: string): string {
  const tidy = name.replace(/[\p{Cc}\p{Zl}\p{Zp}]+/gu, ' ').replace(/\s+/g, ' ').trim();
  if (tidy === '') throw new InputError('empty', `The ${what} is missing. Type it and send again.`);
  if (tidy.length > LONGEST_NAME) throw new InputError('too-large', `The ${what} is longer than ${LONGEST_NAME} characters. Shorten it and send again.`);
  return tidy;
}
