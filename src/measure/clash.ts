/*
 * The teacher's question: does this old note jar with the new harmony?
 *
 * Conventions: MIDI numbers; 0 is a note of the new harmony, 1 a semitone against it in the middle or low register.
 * Method: a note whose name the new harmony has does not jar. Else the closest step to one of its notes counts, octaves aside; a foreign
 *   note under the new bass is heard as a wrong bass. Both lose weight towards the top, where sounds fade before they can blur.
 * Source: seconds are the rough intervals (Plomp and Levelt 1965; Hutchinson and Knopoff 1978), low ones more than high ones; notes
 *   above about the C an octave above middle C may ring over a held bass (teachers' common practice). The figures are our own.
 * What it does not tell: levels and times; see carriedOver.ts.
 */

/** By the smallest distance in semitones, octaves aside, 0-6. */
const BY_STEP = [0, 1, 0.6, 0.15, 0.15, 0.15, 0.3] as const;

/** A foreign note under the new bass. */
const WRONG_BASS = 0.7;

/** From here down (<=) a note weighs in full, from there up (>=) least; MIDI numbers and the least weight. */
const REGISTER = { full: 52, least: 84, leastWeight: 0.15 } as const;

/** The new harmony's notes: those that belong to it. */
export interface NewHarmony {
  /** Pitch classes, 0-11. */
  readonly classes: ReadonlySet<number>;
  /** Its lowest note, MIDI number; infinite where none was struck. */
  readonly lowest: number;
}

/** How far an old note jars, 0-1. */
export function clashOf(pitch: number, { classes, lowest }: NewHarmony): number {
  if (classes.has(pitch % 12)) return 0;
  const closest = [...classes].reduce((most, other) => Math.max(most, BY_STEP[stepBetween(pitch % 12, other)] ?? 0), 0);
  return Math.max(closest, pitch < lowest ? WRONG_BASS : 0) * registerWeight(pitch);
}

/** Semitones between two pitch classes, the shorter way round, 0-6. */
function stepBetween(one: number, other: number): number {
  const up = (one - other + 12) % 12;
  return Math.min(up, 12 - up);
}

/** Low notes weigh in full, high ones little. */
export function registerWeight(pitch: number): number {
  const share = Math.min(1, Math.max(0, (pitch - REGISTER.full) / (REGISTER.least - REGISTER.full)));
  return 1 - share * (1 - REGISTER.leastWeight);
}
