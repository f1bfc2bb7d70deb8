/**
 * A small text language in which the demo pieces are written, one text a hand and bar, so that the music can be read
 * and mended where it stands.
 *
 *   `E5:4.(`  pitch E5, dotted crotchet, a slur begins
 *   `B3+D4:4'`  two notes together, staccato
 *   `r:8`  a quaver's rest
 *
 * Pitch: letter, `#` or `b`, octave (4 starts at middle C). After the colon the value as in 1, 2, 4, 8, 16 with dots,
 * then signs: `(` slur begins, `)` slur ends, `'` staccato, `-` tenuto, `>` accent, `^` fermata.
 */

/** Divisions of the crotchet in the demo pieces: the semiquaver is the shortest value, so 4 are enough. */
export const DIVISIONS = 4;

/** Length of a crotchet's multiples and parts in divisions, by the digit that stands for the value. */
const VALUES: ReadonlyMap<string, { readonly type: string; readonly divisions: number }> = new Map([
  ['1', { type: 'whole', divisions: 16 }],
  ['2', { type: 'half', divisions: 8 }],
  ['4', { type: 'quarter', divisions: 4 }],
  ['8', { type: 'eighth', divisions: 2 }],
  ['16', { type: '16th', divisions: 1 }],
]);

/** Semitones above C of each step. */
const SEMITONES: ReadonlyMap<string, number> = new Map([['C', 0], ['D', 2], ['E', 4], ['F', 5], ['G', 7], ['A', 9], ['B', 11]]);

/** A spelled pitch of a demo piece. */
export interface WrittenPitch {
  readonly step: string;
  /** Semitones up or down. */
  readonly alter: number;
  /** Octave 4 starts at middle C. */
  readonly octave: number;
  /** MIDI number. */
  readonly midi: number;
}

/** A sign after a note; see the head of this file. */
export type Sign = '(' | ')' | "'" | '-' | '>' | '^';

/** One chord, note or rest (no pitches) of one hand. */
export interface WrittenEvent {
  /** Divisions from the start of the bar. */
  readonly at: number;
  /** Divisions. */
  readonly length: number;
  /** MusicXML name of the value. */
  readonly type: string;
  readonly dots: number;
  /** Lowest first; empty for a rest. */
  readonly pitches: readonly WrittenPitch[];
  readonly signs: readonly Sign[];
}

/** A whole token: rest or pitches, value, dots, signs. */
const TOKEN = /^(r|[A-G][#b]?\d(?:\+[A-G][#b]?\d)*):(\d+)(\.*)([()'>^-]*)$/;
/** One pitch: letter, accidental, octave. */
const PITCH = /^([A-G])([#b]?)(\d)$/;

/**
 * Reads one hand of one bar.
 * @throws RangeError naming the token that is not in the language
 */
export function parseHand(text: string): readonly WrittenEvent[] {
  const events: WrittenEvent[] = [];
  let at = 0;
  for (const token of text.trim().split(/\s+/)) {
    const event = parseEvent(token, at);
    events.push(event);
    at += event.length;
  }
  return events;
}

/** Divisions that a hand's events fill. */
export function filled(events: readonly WrittenEvent[]): number {
  return events.reduce((sum, event) => sum + event.length, 0);
}

/**
 * Reads a pitch such as `F#4`.
 * @throws RangeError where it is none
 */
export function parsePitch(text: string): WrittenPitch {
  const [, step = '', accidental = '', digit = ''] = PITCH.exec(text) ?? [];
  const semitones = SEMITONES.get(step);
  if (semitones === undefined) throw new RangeError(`no pitch: ${text}`);
  const alter = accidental === '#' ? 1 : accidental === 'b' ? -1 : 0;
  const octave = Number(digit);
  return { step, alter, octave, midi: 12 * (octave + 1) + semitones + alter };
}

/** Reads one token that begins at a division of its bar. */
function parseEvent(token: string, at: number): WrittenEvent {
  const [, head = '', digits = '', dots = '', signs = ''] = TOKEN.exec(token) ?? [];
  const value = VALUES.get(digits);
  if (value === undefined) throw new RangeError(`not in the language of the demo pieces: ${token}`);
  // n dots lengthen by 1/2 + 1/4 + …: the value times (2 - 2^-n)
  const length = value.divisions * (2 - 2 ** -dots.length);
  const pitches = head === 'r' ? [] : head.split('+').map(parsePitch).sort((a, b) => a.midi - b.midi);
  return { at, length, type: value.type, dots: dots.length, pitches, signs: Array.from(signs).filter(isSign) };
}

function isSign(letter: string): letter is Sign {
  return "()'->^".includes(letter);
}
