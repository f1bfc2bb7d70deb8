import { closeSync, fstatSync, openSync, readSync } from 'node:fs';
import { basename } from 'node:path';
import { InputError } from '../base/index.js';
import type { SourceFile } from './types.js';

/**
 * Most bytes taken into memory (<=), 48 MiB: more than any reader accepts, so that the reader itself still says what its
 * limit is, and a video or a whole disk picked by mistake costs no more than this.
 */
const MOST_BYTES = 48 * 1024 * 1024;

/** Bytes asked for at once where a file does not tell its size (a pipe). */
const STEP_BYTES = 1024 * 1024;

/**
 * Reads a file from the disk, no further than any reader would look.
 * @throws InputError code `not-found` where there is no such file or it cannot be read, naming it without its folder
 */
export function readSource(path: string): SourceFile {
  const name = basename(path);
  try {
    return { name, bytes: bytesOf(path) };
  } catch (error) {
    throw new InputError('not-found', REASONS.get(codeOf(error)) ?? 'This file cannot be read.', { file: name });
  }
}

/** What the system's codes mean to a teacher. */
const REASONS: ReadonlyMap<string, string> = new Map([
  ['ENOENT', 'There is no file of this name.'],
  ['ENOTDIR', 'There is no file of this name.'],
  ['EISDIR', 'This is a folder; a file was expected.'],
  ['EACCES', 'This file may not be read from this account.'],
]);

/** Bytes from the start of a file, up to `MOST_BYTES`. */
function bytesOf(path: string): Uint8Array {
  const file = openSync(path, 'r');
  try {
    const { size } = fstatSync(file);
    const step = size > 0 ? Math.min(size, MOST_BYTES) : STEP_BYTES;
    const pieces: Uint8Array[] = [];
    for (let total = 0; total < MOST_BYTES;) {
      const piece = new Uint8Array(Math.min(step, MOST_BYTES - total));
      const got = readSync(file, piece);
      if (got === 0) break;
      pieces.push(piece.subarray(0, got));
      total += got;
    }
    return new Uint8Array(Buffer.concat(pieces));
  } finally {
    closeSync(file);
  }
}

/** The system's code of an error, or an empty text. */
function codeOf(error: unknown): string {
  return typeof error === 'object' && error !== null && 'code' in error ? String(error.code) : '';
}
