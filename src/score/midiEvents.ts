/**
 * What a MIDI file says that a score can use. Source of the format: Standard MIDI File 1.1. The library reads the
 * events; pairing them into notes and refusing damaged files is done here.
 */
import { parseMidi, type MidiData, type MidiEvent } from 'midi-file';
import { InputError } from '../base/index.js';

/** A note of a MIDI file, in the file's own ticks. */
export interface MidiNote {
  readonly track: number;
  /** 0-15. */
  readonly channel: number;
  readonly pitch: number;
  readonly onset: number;
  readonly end: number;
}

/** Something that holds from a moment on, in the file's own ticks. */
export interface Since<T> {
  readonly tick: number;
  readonly value: T;
}

/** What a MIDI file says that a score can use. */
export interface MidiContent {
  readonly ticksPerQuarter: number;
  readonly notes: readonly MidiNote[];
  /** Names of the tracks by place, '' where a track has none. */
  readonly trackNames: readonly string[];
  readonly times: readonly Since<{ readonly beats: number; readonly beatType: number }>[];
  readonly keys: readonly Since<{ readonly fifths: number; readonly mode: string }>[];
  /** Crotchets a minute. */
  readonly tempos: readonly Since<number>[];
  /** Notes that the file never ends. */
  readonly hanging: number;
}

/** Most notes of a MIDI file read as a score. */
export const MAX_MIDI_NOTES = 200_000;

/** Channel that MIDI keeps for drums (10 as printed, 9 counted from 0). */
const DRUM_CHANNEL = 9;

/** Bytes before the content of a chunk: four letters and a length of four bytes. */
const CHUNK_HEAD_BYTES = 8;

/** Bytes of a file header, which at least one track must follow. */
const FILE_HEAD_BYTES = 14;

/** What is gathered while the tracks are walked. */
interface Gathering {
  readonly notes: MidiNote[];
  readonly times: MidiContent['times'][number][];
  readonly keys: MidiContent['keys'][number][];
  readonly tempos: Since<number>[];
  hanging: number;
}

/**
 * Reads a MIDI file as far as a score needs it. Drums are left out.
 * @throws InputError `not-well-formed` for a damaged file, `unsupported` for one without beats, `too-large`
 */
export function readMidi(bytes: Uint8Array): MidiContent {
  const file = parsed(bytes);
  const { ticksPerBeat, format } = file.header;
  if (ticksPerBeat === undefined || ticksPerBeat === 0)
    throw new InputError(
      'unsupported',
      'This MIDI file counts seconds, not beats, so no bars can be told; expected one that counts beats.',
    );
  if (format === 2) throw new InputError('unsupported', 'This MIDI file holds several pieces one after another; expected one piece.');
  const found: Gathering = { notes: [], times: [], keys: [], tempos: [], hanging: 0 };
  file.tracks.forEach((events, track) => walkTrack(events, track, found));
  const { hanging, ...rest } = found;
  return { ticksPerQuarter: ticksPerBeat, ...rest, hanging, trackNames: file.tracks.map(nameOf) };
}

/** Reads the events, turning every failure of the library into one typed error. */
function parsed(bytes: Uint8Array): MidiData {
  if (!isWhole(bytes)) throw damaged();
  try {
    return parseMidi(bytes);
  } catch {
    throw damaged();
  }
}

/** True where every chunk is as long as it says (MIDI file standard); the library reads cut ones without a word. */
function isWhole(bytes: Uint8Array): boolean {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  let at = 0;
  while (at + CHUNK_HEAD_BYTES <= bytes.length) at += CHUNK_HEAD_BYTES + view.getUint32(at + 4);
  return at <= bytes.length && at > FILE_HEAD_BYTES;
}

/** The one error for files that end too soon or do not follow the format. */
function damaged(): InputError {
  return new InputError('not-well-formed', 'This MIDI file is cut short or damaged; expected a whole one.');
}

/** First name that a track gives itself; '' without one. */
function nameOf(events: readonly MidiEvent[]): string {
  return events.flatMap((event) => (event.type === 'trackName' ? [event.text.trim()] : []))[0] ?? '';
}

/** Pairs every note-off with the oldest open note of its channel and key. */
function walkTrack(events: readonly MidiEvent[], track: number, found: Gathering): void {
  const open = new Map<number, { readonly onset: number; readonly channel: number; readonly pitch: number }[]>();
  let tick = 0;
  for (const event of events) {
    tick += event.deltaTime;
    if (event.type === 'timeSignature') found.times.push({ tick, value: { beats: event.numerator, beatType: event.denominator } });
    if (event.type === 'keySignature') found.keys.push({ tick, value: { fifths: event.key, mode: event.scale === 1 ? 'minor' : 'major' } });
    if (event.type === 'setTempo') found.tempos.push({ tick, value: 60_000_000 / event.microsecondsPerBeat });
    if ((event.type !== 'noteOn' && event.type !== 'noteOff') || event.channel === DRUM_CHANNEL) continue;
    const key = event.channel * 128 + event.noteNumber;
    const waiting = open.get(key) ?? [];
    const begun = { onset: tick, channel: event.channel, pitch: event.noteNumber };
    if (event.type === 'noteOn' && event.velocity > 0) open.set(key, [...waiting, begun]);
    else if (waiting[0] !== undefined) {
      found.notes.push({ ...waiting[0], track, end: tick });
      open.set(key, waiting.slice(1));
    }
    if (found.notes.length > MAX_MIDI_NOTES)
      throw new InputError('too-large', `This MIDI file holds more than ${MAX_MIDI_NOTES} notes; expected one piece.`);
  }
  for (const note of [...open.values()].flat()) {
    found.notes.push({ ...note, track, end: tick });
    found.hanging += 1;
  }
}
