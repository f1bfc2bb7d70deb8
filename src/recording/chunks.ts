import { InputError } from '../base/index.js';
import { bigEndian, chunkName } from './bytes.js';

/** How long a tick lasts: a share of a crotchet, or a fixed share of a second (SMPTE frames). */
export type Division =
  | { readonly kind: 'crotchet'; readonly ticks: number }
  | { readonly kind: 'second'; readonly ticks: number };

/** What the header chunk says. */
export interface Header {
  readonly format: 0 | 1 | 2;
  /** Number of tracks it promises. */
  readonly tracks: number;
  readonly division: Division;
  /** Where the first chunk after the header begins. */
  readonly next: number;
}

/** Frames a second by the header's negative first byte; 29 stands for 30 drop-frame (30000/1001). */
const FRAME_RATES: ReadonlyMap<number, number> = new Map([[24, 24], [25, 25], [29, 30_000 / 1001], [30, 30]]);
const HEADER_BYTES = 6;

/**
 * Reads the header chunk (Standard MIDI File 1.1). A header longer than six bytes is accepted, as the standard asks.
 * @throws InputError `not-well-formed`, `bad-value` or `unsupported`
 */
export function readHeader(bytes: Uint8Array): Header {
  const length = bigEndian(bytes, 4, 4);
  if (bytes.length < 8 + HEADER_BYTES || length < HEADER_BYTES) {
    throw new InputError('not-well-formed', 'The MIDI file breaks off right at its beginning. It was probably cut short when it was saved or sent; send it once more.', { byte: 4 });
  }
  const format = bigEndian(bytes, 8, 2);
  if (format !== 0 && format !== 1 && format !== 2) {
    throw new InputError('unsupported', 'This is a kind of MIDI file that no piano records. Save the recording once more as a standard MIDI file.', { byte: 8 });
  }
  return { format, tracks: bigEndian(bytes, 10, 2), division: readDivision(bigEndian(bytes, 12, 2)), next: 8 + length };
}

/** Bit 15 clear: ticks a crotchet. Set: minus frames a second in the high byte, ticks a frame in the low one. */
function readDivision(word: number): Division {
  if (word < 0x8000) {
    if (word === 0) throw new InputError('bad-value', 'The file does not say how fast its clock runs, so nothing in it has a time. It was damaged when it was saved; save it once more.', { byte: 12 });
    return { kind: 'crotchet', ticks: word };
  }
  const rate = FRAME_RATES.get(256 - (word >> 8));
  const ticks = word & 0xff;
  if (rate === undefined || ticks === 0) {
    throw new InputError('bad-value', 'The file counts its time like a film, at a speed that no film has. It was damaged when it was saved; save it once more.', { byte: 12 });
  }
  return { kind: 'second', ticks: rate * ticks };
}

/** Where one track's events stand. */
export interface TrackSpan {
  readonly start: number;
  /** Exclusive: where its length says it ends, or the end of the file. */
  readonly end: number;
  /** How far its events may be followed: `end`, or beyond it where no other chunk begins there (the length is wrong). */
  readonly limit: number;
  /** True where the file ends before the track should. */
  readonly cut: boolean;
}

/**
 * Finds the next track chunk from `at`, stepping over chunks of other kinds; null at the end. Bytes that are no chunk
 * (junk after the last track) are stepped over as well, up to the next "MTrk".
 */
export function nextTrack(bytes: Uint8Array, at: number): TrackSpan | null {
  let here = at;
  while (here + 8 <= bytes.length) {
    if (isTrack(bytes, here)) return trackSpan(bytes, here + 8, bigEndian(bytes, here + 4, 4));
    here = isChunk(bytes, here) ? here + 8 + bigEndian(bytes, here + 4, 4) : findTrack(bytes, here + 1);
  }
  return null;
}

/** True where a track chunk begins. */
export function isTrack(bytes: Uint8Array, at: number): boolean {
  return chunkName(bytes, at) === 'MTrk';
}

/** A length that reaches beyond the file is cut; one after which no chunk begins is not trusted. */
function trackSpan(bytes: Uint8Array, start: number, length: number): TrackSpan {
  const end = Math.min(start + length, bytes.length);
  const limit = isTrack(bytes, end) || isChunk(bytes, end) ? end : findTrack(bytes, end);
  return { start, end, limit, cut: start + length > bytes.length };
}

/** A chunk of any kind: a printable name, and a length that fits the file. */
function isChunk(bytes: Uint8Array, at: number): boolean {
  return chunkName(bytes, at) !== null && at + 8 + bigEndian(bytes, at + 4, 4) <= bytes.length;
}

/** First "MTrk" at or after `from`, or the end of the bytes. */
function findTrack(bytes: Uint8Array, from: number): number {
  for (let at = bytes.indexOf(0x4d, from); at >= 0; at = bytes.indexOf(0x4d, at + 1)) {
    if (isTrack(bytes, at)) return at;
  }
  return bytes.length;
}
