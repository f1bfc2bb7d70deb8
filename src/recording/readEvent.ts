import { readVlq } from './bytes.js';

/** One event of a track, after its delta time. */
export interface Step {
  /** Where the next delta time begins. */
  readonly next: number;
  /** The event with its status byte written out; empty for what a recording does not need (texts and the like). */
  readonly kept: readonly number[];
  /** Status that the next event may leave out; null after a meta or system exclusive event, which cancels it. */
  readonly running: number | null;
  /** True for the end-of-track event. */
  readonly last: boolean;
}

const META = 0xff;
const META_END = 0x2f;
const META_TEMPO = 0x51;
const TEMPO_BYTES = 3;

/**
 * Reads one event of a track (Standard MIDI File 1.1), the strict reading of running status.
 * @param running status in force, or null
 * @returns null where the event is not whole, or is none: a data byte with its high bit set, a data byte without a
 *   status, a status that has no place in a file
 */
export function readEvent(bytes: Uint8Array, at: number, running: number | null): Step | null {
  const first = bytes[at];
  if (first === undefined) return null;
  if (first === META) return metaEvent(bytes, at);
  if (first === 0xf0 || first === 0xf7) return skipped(bytes, at + 1);
  if (first > 0xf0) return null;
  if (first >= 0x80) return channelEvent(bytes, at + 1, first);
  return running === null ? null : channelEvent(bytes, at, running);
}

/** Programme change and channel pressure have one data byte, the others two. Bends and pressure are not kept. */
function channelEvent(bytes: Uint8Array, at: number, status: number): Step | null {
  const kind = status >> 4;
  const count = kind === 0xc || kind === 0xd ? 1 : 2;
  const data = bytes.subarray(at, at + count);
  if (data.length < count || data.some((byte) => byte >= 0x80)) return null;
  const wanted = kind === 0x8 || kind === 0x9 || kind === 0xb || kind === 0xc;
  return { next: at + count, kept: wanted ? [status, ...data] : [], running: status, last: false };
}

/** Of the meta events only tempo (three bytes, not 0) and the end of the track matter to a recording. */
function metaEvent(bytes: Uint8Array, at: number): Step | null {
  const type = bytes[at + 1];
  const body = skipped(bytes, at + 2);
  if (type === undefined || type >= 0x80 || body === null) return null;
  if (type === META_END) return { ...body, last: true };
  const data = bytes.subarray(body.next - TEMPO_BYTES, body.next);
  const tempo = type === META_TEMPO && bytes[at + 2] === TEMPO_BYTES && data.some((byte) => byte > 0);
  return tempo ? { ...body, kept: [META, META_TEMPO, TEMPO_BYTES, ...data] } : body;
}

/** Steps over a length and as many bytes. */
function skipped(bytes: Uint8Array, at: number): Step | null {
  const length = readVlq(bytes, at);
  if (length === null || length.next + length.value > bytes.length) return null;
  return { next: length.next + length.value, kept: [], running: null, last: false };
}
