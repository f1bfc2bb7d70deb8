import { InputError } from '../base/index.js';
import { nextTrack, readHeader, type Header } from './chunks.js';
import { cleanTrack } from './cleanTrack.js';

/**
 * Most events kept from one file (<=): an hour of three pedals, each sent a hundred times a second. Counted before
 * the libraries build an object for each.
 */
export const MAX_EVENTS = 1_000_000;

/** Most tracks that are read (<=): sixteen channels on sixteen ports, several times over. */
export const MAX_TRACKS = 1_024;

/** A Standard MIDI File rewritten without its faults, and whether it had any. */
export interface CleanFile {
  readonly header: Header;
  /** A whole file for the library: a six-byte header and every track that was found. */
  readonly bytes: readonly number[];
  /** True where the file breaks off, a track is damaged, or fewer tracks are there than the header promises. */
  readonly broken: boolean;
}

/**
 * Rewrites a file track by track, keeping all that can be read.
 * @throws InputError `not-well-formed` without any track, `too-large` beyond `MAX_EVENTS` or `MAX_TRACKS`, and as
 *   `readHeader`
 */
export function cleanFile(bytes: Uint8Array): CleanFile {
  const header = readHeader(bytes);
  const body: number[] = [];
  let tracks = 0;
  let events = 0;
  let broken = false;
  for (let span = nextTrack(bytes, header.next); span !== null;) {
    const track = cleanTrack(bytes, span);
    tracks += 1;
    events += track.events;
    broken ||= track.broken;
    refuseTooMany(tracks, events);
    for (const byte of [...ascii('MTrk'), ...word32(track.bytes.length)]) body.push(byte);
    for (const byte of track.bytes) body.push(byte);
    span = nextTrack(bytes, track.next);
  }
  if (tracks === 0) {
    throw new InputError('not-well-formed', 'The MIDI file ends before any music. It was probably cut short when it was saved or sent; send it once more.', { byte: header.next });
  }
  return { header, bytes: [...fileHead(bytes, tracks), ...body], broken: broken || tracks < header.tracks };
}

/** Counted while reading, so that nothing is built first. */
function refuseTooMany(tracks: number, events: number): void {
  if (events > MAX_EVENTS) throw new InputError('too-large', 'The file holds far more keys and pedals than anyone plays in an hour. Is it the right one?');
  if (tracks > MAX_TRACKS) throw new InputError('too-large', `The file holds more than ${MAX_TRACKS} tracks. A recording of a piano has one or two. Is it the right one?`);
}

/** The header as it came, but six bytes long and with the number of tracks that are really there. */
function fileHead(bytes: Uint8Array, tracks: number): readonly number[] {
  return [...ascii('MThd'), ...word32(6), ...bytes.subarray(8, 10), tracks >> 8, tracks & 0xff, ...bytes.subarray(12, 14)];
}

function ascii(text: string): readonly number[] {
  return Array.from(text, (letter) => letter.charCodeAt(0));
}

/** Big-endian, four bytes. */
function word32(value: number): readonly number[] {
  return [24, 16, 8, 0].map((shift) => (value >>> shift) & 0xff);
}
