/**
 * A small text language in which the demo pieces are written, one text a hand and bar, so that the music can be read
 * and mended where it stands.
 *
 *   `E5:4.(`  pitch E5, dotted crotchet, a slur begins
 *   `B3+D4:4'`  two notes together, staccato
 *   `r:8`  a quaver's rest
 *
 *   `Ab5~:4{5}`  tied into the same pitch of the next event, fifth finger
 *
 * Pitch: letter, `#` or `b`, octave (4 starts at middle C), `~` where it is tied on. After the colon the value as in
 * 1, 2, 4, 8, 16 with dots, then signs: `(` slur begins, `)` slur ends, `'` staccato, `-` tenuto, `>` accent,
 * `^` fermata, `m` mordent (with the key below), `t` trill (with the key above), `z` a chord broken upwards; last a
 * fingering in braces.
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

/** A spelled pitch of a demo piece; in a chord or alone it may be tied on. */
export interface WrittenPitch {
  readonly step: string;
  /** Semitones up or down. */
  readonly alter: number;
  /** Octave 4 starts at middle C. */
  readonly octave: number;
  /** MIDI number. */
  readonly midi: number;
  /** True where a tie leads to the same pitch of the hand's next event. */
  readonly tied: boolean;
}

/** A sign after a note; see the head of this file. */
export type Sign = '(' | ')' | "'" | '-' | '>' | '^' | 'm' | 't' | 'z';

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
  /** Finger printed over or under it, 1-5; null for none. */
  readonly finger: number | null;
}

/** A whole token: rest or pitches, value, dots, signs, finger. */
const TOKEN = /^(r|[A-G][#b]?\d~?(?:\+[A-G][#b]?\d~?)*):(\d+)(\.*)([()'>^mtz-]*)(?:\{([1-5])\})?$/;
/** One pitch: letter, accidental, octave, tie. */
const PITCH = /^([A-G])([#b]?)(\d)(~?)$/;

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
  const [, step = '', accidental = '', digit = '', tie = ''] = PITCH.exec(text) ?? [];
  const semitones = SEMITONES.get(step);
  if (semitones === undefined) throw new RangeError(`no pitch: ${text}`);
  const alter = accidental === '#' ? 1 : accidental === 'b' ? -1 : 0;
  const octave = Number(digit);
  return { step, alter, octave, midi: 12 * (octave + 1) + semitones + alter, tied: tie === '~' };
}

/** Reads one token that begins at a division of its bar. */
function parseEvent(token: string, at: number): WrittenEvent {
  const [, head = '', digits = '', dots = '', signs = '', finger] = TOKEN.exec(token) ?? [];
  const value = VALUES.get(digits);
  if (value === undefined) throw new RangeError(`not in the language of the demo pieces: ${token}`);
  // n dots lengthen by 1/2 + 1/4 + …: the value times (2 - 2^-n)
  const length = value.divisions * (2 - 2 ** -dots.length);
  const pitches = head === 'r' ? [] : head.split('+').map(parsePitch).sort((a, b) => a.midi - b.midi);
  const shared = { at, length, type: value.type, dots: dots.length, pitches, signs: Array.from(signs).filter(isSign) };
  return { ...shared, finger: finger === undefined ? null : Number(finger) };
}

function isSign(letter: string): letter is Sign {
  return "()'->^mtz".includes(letter);
}
