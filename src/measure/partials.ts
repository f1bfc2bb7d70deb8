/*
 * The teacher's question: what is a piano note made of, as far as clashes go?
 *
 * Conventions: frequencies in Hz, amplitudes linear, the fundamental is 1.
 * Method: equal temperament, A above middle C 440 Hz, f = 440 · 2^((n − 69) / 12); eleven exact harmonics with amplitude 1/n.
 * Source: the spectrum in which Hutchinson and Knopoff's measure is commonly worked (eleven harmonics, 1/n).
 * What it does not tell: the colour of an instrument. Real strings are a little sharp in their upper partials, and the hammer leaves some out.
 */

/** One sine of a sound. */
export interface Partial {
  /** Hz. */
  readonly frequency: number;
  /** Linear, above 0. */
  readonly amplitude: number;
}

/** Harmonics of one note. */
export const HARMONICS = 11;

/** Hz of a MIDI number; 69 is 440. */
export function frequencyOf(midi: number): number {
  return 440 * 2 ** ((midi - 69) / 12);
}

/** A note's harmonics, lowest first, amplitudes 1, 1/2, 1/3 … */
export function partialsOf(midi: number, harmonics = HARMONICS): readonly Partial[] {
  return Array.from({ length: harmonics }, (_, i) => ({ frequency: frequencyOf(midi) * (i + 1), amplitude: 1 / (i + 1) }));
}
