/**
 * Names on the line of fifths: C is 0, G 1, F -1, F sharp 6, B flat -2. Seven fifths make a semitone, so the pitch
 * class of place f is 7f modulo 12. Spelling lives on this line; sound lives on pitch classes.
 */
import type { Pitch } from '../score/index.js';
import type { Mode } from './types.js';

/** Steps along the line of fifths, F first. */
const STEPS = 'FCGDAEB';

/** Remainder that is never negative. */
export function mod(value: number, by: number): number {
  return ((value % by) + by) % by;
}

/** Place of a spelled pitch on the line of fifths; quarter-tones at the nearest whole alteration. */
export function fifthsOf(pitch: Pick<Pitch, 'step' | 'alter'>): number {
  return STEPS.indexOf(pitch.step) - 1 + 7 * Math.round(pitch.alter);
}

/** Pitch class 0-11 of a place on the line of fifths. */
export function pitchClass(fifths: number): number {
  return mod(7 * fifths, 12);
}

/** Name of a place on the line of fifths: "C", "F#", "Bb". */
export function fifthsName(fifths: number): string {
  const alter = Math.floor((fifths + 1) / 7);
  return `${STEPS.charAt(mod(fifths + 1, 7))}${(alter < 0 ? 'b' : '#').repeat(Math.abs(alter))}`;
}

/** The place on the line of fifths with this pitch class that lies nearest to `near` (which may be a fraction). */
export function nearestFifths(pc: number, near: number): number {
  const place = mod(7 * pc, 12);
  return place + 12 * Math.round((near - place) / 12);
}

/**
 * Where the notes of a key lie on average, as steps from its tonic on the line of fifths: the seven notes of a major
 * scale run from -1 to 5, of a harmonic minor scale from -4 to 2 with the leading note at 5.
 */
const MEAN_FROM_TONIC: Readonly<Record<Mode, number>> = { major: 2, minor: 0 };

/** The tonic of a key, spelled so that its notes lie nearest to a mean place on the line of fifths. */
export function tonicFifths(tonic: number, mode: Mode, meanFifths: number): number {
  return nearestFifths(tonic, meanFifths - MEAN_FROM_TONIC[mode]);
}
