import type { KeySignature, Pitch, Step } from '../score/index.js';

/** A spelled note name without its octave. */
export interface NoteName {
  readonly step: Step;
  /** Semitones up (+) or down (-). */
  readonly alter: number;
}

/**
 * Steps in the order of fifths, F first: the place on this line tells which notes a key signature
 * alters.
 */
const FIFTHS: readonly Step[] = ['F', 'C', 'G', 'D', 'A', 'E', 'B'];

/** Semitones above C of each natural note. */
const NATURAL: Readonly<Record<Step, number>> = { C: 0, D: 2, E: 4, F: 5, G: 7, A: 9, B: 11 };

/** Accidentals in words. */
const ACCIDENTALS: Readonly<Record<number, string>> = { [-2]: ' double flat', [-1]: ' flat', 0: '', 1: ' sharp', 2: ' double sharp' };

/**
 * Chromatic notes are spelled from so many fifths below a key signature on, twelve in a row, the common practice in tonal music: in C
 * major A flat, E flat, B flat, but F sharp and C sharp; in A minor B flat, but G sharp, its leading note, and D sharp.
 */
const LOWEST_FIFTH = { major: -4, minor: -2 } as const;

/** A note as said in a sentence: "G sharp"; "G natural" where `sayNatural` asks for it. */
export function noteInWords(name: NoteName, sayNatural = false): string {
  if (name.alter === 0) return sayNatural ? `${name.step} natural` : name.step;
  return name.step + (ACCIDENTALS[name.alter] ?? ` altered by ${name.alter} semitones`);
}

/** What the key signature does to a step: 1, 0 or -1. `fifths` counts sharps (+) or flats (-). */
export function alterInKey(step: Step, fifths: number): number {
  const place = FIFTHS.indexOf(step);
  if (fifths > 0) return place < fifths ? 1 : 0;
  return 6 - place < -fifths ? -1 : 0;
}

/**
 * Names a key that was pressed. Where it stands for a written note and can carry that note's letter, it does
 * ("G natural for G sharp"); otherwise the key signature decides.
 * @param midi MIDI number, after the keyboard's transposition is taken off
 * @param key the signature in force, or its sharps (+) or flats (-) where nothing more is known
 */
export function namePlayed(midi: number, written: Pitch | null, key: number | KeySignature): NoteName {
  const nearby = written === null ? null : onSameLetter(midi, written);
  return nearby ?? nameInKey(midi, typeof key === 'number' ? { fifths: key, mode: null } : key);
}

/**
 * On the written note's letter, at most one accidental away; null where that cannot be. A white
 * key is no "E sharp".
 */
function onSameLetter(midi: number, written: Pitch): NoteName | null {
  const alter = written.alter + midi - written.midi;
  const whiteKey = Object.values(NATURAL).includes(mod(midi, 12));
  return alter === 0 || (Math.abs(alter) === 1 && !whiteKey) ? { step: written.step, alter } : null;
}

/** By the line of fifths around the key. */
function nameInKey(midi: number, { fifths, mode }: KeySignature): NoteName {
  const lowest = fifths + LOWEST_FIFTH[mode === 'minor' ? 'minor' : 'major'];
  for (let place = lowest; place < lowest + 12; place++) {
    const name = nameOnFifths(place);
    if (mod(NATURAL[name.step] + name.alter, 12) === mod(midi, 12)) return name;
  }
  throw new RangeError('a pitch must be a whole number');
}

/** The note so many fifths above C. */
function nameOnFifths(place: number): NoteName {
  return { step: FIFTHS[mod(place + 1, 7)] ?? 'C', alter: Math.floor((place + 1) / 7) };
}

/** Remainder that is never negative. */
function mod(value: number, divisor: number): number {
  return ((value % divisor) + divisor) % divisor;
}
