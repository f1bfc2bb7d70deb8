/** What became of files that were put in, in words. */
import { InputError } from '../base/index.js';
import { told } from './errors.js';
import type { Room } from './shared.js';

/** What became of one file. */
export interface Filed {
  readonly file: string;
  /** In words: what was done, or what is wrong and what to do next. */
  readonly text: string;
  readonly ok: boolean;
  /** Page of what was filed. */
  readonly href: string | null;
  /** The recording that was filed by a guess, which one tap corrects; null where there is nothing to correct. */
  readonly guessed: number | null;
}

/**
 * What is wrong with a file, in words.
 * @throws whatever is not about the file
 */
export function refusal(room: Room, file: string, error: unknown): Filed {
  if (!(error instanceof InputError)) throw error;
  return { file, ok: false, text: told(error, room.language, file), href: null, guessed: null };
}
