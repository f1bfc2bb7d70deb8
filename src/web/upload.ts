/**
 * Files on their way in. Limits hold while the bytes stream, not after; one file that is refused costs the
 * others nothing; a name is only ever shown, never used as a path.
 */
import busboy from 'busboy';
import type { Request } from 'express';
import { InputError } from '../base/index.js';
import type { IncomingFile } from '../store/index.js';
import type { Tell } from './progress.js';

/** A form with files, as it came in. */
export interface Upload {
  readonly fields: ReadonlyMap<string, string>;
  /** Files that came whole, by the name of their form field. */
  readonly files: readonly UploadedFile[];
  /** Files that were refused, each with the reason; the others are not lost. */
  readonly refused: readonly InputError[];
}

/** A file and the form field it was put in. */
export interface UploadedFile extends IncomingFile {
  readonly field: string;
  /** Which file of the form it is, from 0. */
  readonly at: number;
}

/** Largest file, bytes: the longest scores and recordings met stay below a fifth of it. */
export const LARGEST_FILE_BYTES = 24 * 1024 * 1024;

/** Most files in one form. */
export const MOST_FILES = 24;
/** Most bytes of the whole form. */
export const LARGEST_FORM_BYTES = 96 * 1024 * 1024;

/** How much one form may hold. */
export interface UploadLimits {
  readonly fileBytes: number;
  readonly formBytes: number;
}

/** Limits for scores and recordings. */
const USUAL_LIMITS: UploadLimits = { fileBytes: LARGEST_FILE_BYTES, formBytes: LARGEST_FORM_BYTES };

/** Form fields beside the files: few, and short. */
const MOST_FIELDS = 12;
const LARGEST_FIELD_BYTES = 4096;

/** Longest file name shown, characters. */
const LONGEST_FILE_NAME = 120;

/**
 * Reads a form as it streams in. Nothing of a file beyond its limit is kept in memory.
 * @param tell hears of each file when its last byte is here
 * @throws InputError code `too-large` for the form as a whole, `not-well-formed` where it is none or was cut off
 */
export async function readUpload(request: Request, tell: Tell, limits: UploadLimits = USUAL_LIMITS): Promise<Upload> {
  if (Number(request.headers['content-length'] ?? 0) > limits.formBytes) throw tooMuch(limits);
  return new Promise((resolve, reject) => {
    const collected = new Collected(tell, limits);
    const parser = parserFor(request, limits);
    parser.on('field', (name, value) => collected.fields.set(name, value));
    parser.on('file', (field, stream, { filename }) => collectFile(collected, { field, name: fileNameForShowing(filename), stream, refuse: reject }));
    parser.on('filesLimit', () => collected.refused.push(tooMany()));
    parser.on('error', () => reject(cutOff()));
    parser.on('close', () => resolve(collected));
    request.on('aborted', () => reject(cutOff()));
    request.pipe(parser);
  });
}

/**
 * A name as it may be shown: no folders, no control characters, not endless. It is never used as
 * a path.
 */
export function fileNameForShowing(name: string | undefined): string {
  const last = (name ?? '').split(/[\\/]/).pop() ?? '';
  const tidy = last.replace(/[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]+/gu, '').trim();
  return Array.from(tidy).slice(0, LONGEST_FILE_NAME).join('') || 'file without a name';
}

/** What has come in so far. */
class Collected implements Upload {
  readonly fields = new Map<string, string>();
  readonly files: UploadedFile[] = [];
  readonly refused: InputError[] = [];
  readonly tell: Tell;
  readonly limits: UploadLimits;
  bytes = 0;
  count = 0;

  constructor(tell: Tell, limits: UploadLimits) {
    this.tell = tell;
    this.limits = limits;
  }
}

/** @throws InputError code `not-well-formed` where the request holds no form */
function parserFor(request: Request, { fileBytes }: UploadLimits): busboy.Busboy {
  const limits = { files: MOST_FILES, fileSize: fileBytes, fields: MOST_FIELDS, fieldSize: LARGEST_FIELD_BYTES, parts: MOST_FILES + MOST_FIELDS };
  try {
    return busboy({ headers: request.headers, limits, defParamCharset: 'utf8' });
  } catch {
    throw cutOff();
  }
}

/** A file that is just coming in. */
interface Incoming {
  readonly field: string;
  readonly name: string;
  readonly stream: NodeJS.ReadableStream;
  readonly refuse: (error: InputError) => void;
}

/**
 * Keeps one file's bytes up to the limits. An input left empty sends a file without name and
 * bytes: passed over.
 */
function collectFile(collected: Collected, { field, name, stream, refuse }: Incoming): void {
  let chunks: Uint8Array[] = [];
  let tooLarge = false;
  let at = 0;
  stream.once('data', () => (at = collected.count++));
  stream.on('error', () => refuse(cutOff()));
  stream.on('data', (chunk: Uint8Array) => {
    collected.bytes += chunk.length;
    if (collected.bytes > collected.limits.formBytes) refuse(tooMuch(collected.limits));
    else if (!tooLarge) chunks.push(chunk);
  });
  stream.on('limit', () => {
    tooLarge = true;
    chunks = [];
    const error = fileTooLarge(name, collected.limits);
    collected.refused.push(error);
    collected.tell({ at, file: name, text: error.message });
  });
  stream.on('end', () => {
    const bytes = Buffer.concat(chunks);
    if (tooLarge || (bytes.length === 0 && name === 'file without a name')) return;
    // an empty file sends no data, but has its place all the same
    if (bytes.length === 0) at = collected.count++;
    collected.files.push({ field, name, bytes, at });
    collected.tell({ at, file: name, text: 'received' });
  });
}

/** One file is too large. */
function fileTooLarge(file: string, { fileBytes }: UploadLimits): InputError {
  const limit = `${fileBytes / 1024 / 1024} MB`;
  return new InputError('too-large', `The file is larger than ${limit}, which no score or recording of a piece is. Check that it is the right one.`, { file });
}

/** More files than one form may hold. */
function tooMany(): InputError {
  return new InputError('too-large', `More than ${MOST_FILES} files came at once; the rest was left. Send them in a second turn.`);
}

/** The form as a whole is too large. */
function tooMuch({ formBytes }: UploadLimits): InputError {
  return new InputError('too-large', `More than ${formBytes / 1024 / 1024} MB came at once, so nothing was kept. Send fewer files in one turn.`);
}

/** The form could not be read to its end. */
function cutOff(): InputError {
  return new InputError('not-well-formed', 'The files did not arrive whole, so nothing was kept. Send them again.');
}
