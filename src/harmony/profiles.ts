/*
 * Question: which key does a set of notes suggest?
 * Conventions: profiles count semitones from the tonic; keys are numbered 0-11 major from C, 12-23 minor from C.
 * Method: (1) correlation of durations with a profile, all 24 rotations; (2) for the path through keys the profile of how often a
 *   scale step occurs at all in a short segment, as a likelihood.
 * Source: (1) Krumhansl and Kessler 1982, Psychological Review 89, 334-368, tables as in their first printing (a variant
 *   of the minor one circulates; it is not mixed in); CBMS profiles: Temperley 1999, Music Perception 17; (2) Kostka-Payne profiles of Temperley 2007, Music and
 *   Probability.
 * What it does not tell: where a key begins, or whether the music has one.
 */
import { mod } from './pitchNames.js';
import type { Mode } from './types.js';

/** A profile for each mode, twelve values from the tonic upwards. */
export type Profile = Readonly<Record<Mode, readonly number[]>>;

/** Krumhansl and Kessler 1982: ratings of how well a note fits. */
export const KRUMHANSL_KESSLER: Profile = {
  major: [6.35, 2.23, 3.48, 2.33, 4.38, 4.09, 2.52, 5.19, 2.39, 3.66, 2.29, 2.88],
  minor: [6.33, 2.68, 3.52, 5.38, 2.6, 3.53, 2.54, 4.75, 3.98, 2.69, 3.34, 3.17],
};

/** Temperley 1999 (CBMS). */
export const CBMS: Profile = {
  major: [5, 2, 3.5, 2, 4.5, 4, 2, 4.5, 2, 3.5, 1.5, 4],
  minor: [5, 2, 3.5, 4.5, 2, 4, 2, 4.5, 3.5, 2, 1.5, 4],
};

/** Temperley 2007, from the Kostka-Payne excerpts: share of segments in which a scale step occurs. */
export const KOSTKA_PAYNE: Profile = {
  major: [0.748, 0.06, 0.488, 0.082, 0.67, 0.46, 0.096, 0.715, 0.104, 0.366, 0.057, 0.4],
  minor: [0.712, 0.084, 0.474, 0.618, 0.049, 0.46, 0.105, 0.747, 0.404, 0.067, 0.133, 0.33],
};

/** How many keys there are: twelve tonics in two modes. */
export const KEY_COUNT = 24;

/** Mode of a numbered key. */
export function modeOf(key: number): Mode {
  return key < 12 ? 'major' : 'minor';
}

/** Pitch class of a numbered key's tonic. */
export function tonicOf(key: number): number {
  return key % 12;
}

/** Number of a key. */
export function keyNumber(tonic: number, mode: Mode): number {
  return tonic + (mode === 'minor' ? 12 : 0);
}

/**
 * Correlation of twelve weights (from C) with every key's profile, in order of the keys' numbers. All 0 where the weights do
 * not differ.
 * @throws RangeError unless there are twelve weights
 */
export function keyCorrelations(weights: readonly number[], profile: Profile = KRUMHANSL_KESSLER): readonly number[] {
  if (weights.length !== 12) throw new RangeError('a key is found from twelve weights, one for each pitch class');
  return Array.from({ length: KEY_COUNT }, (_, key) => {
    const values = profile[modeOf(key)];
    return correlation(weights, weights.map((_weight, pc) => values[mod(pc - tonicOf(key), 12)] ?? 0));
  });
}

/** Log-likelihood of the pitch classes that occur in a segment, in every key (Temperley 2007). */
export function keyLikelihoods(present: readonly boolean[], profile: Profile = KOSTKA_PAYNE): readonly number[] {
  return Array.from({ length: KEY_COUNT }, (_, key) =>
    present.reduce((sum, is, pc) => {
      const share = profile[modeOf(key)][mod(pc - tonicOf(key), 12)] ?? 0.5;
      return sum + Math.log(is ? share : 1 - share);
    }, 0),
  );
}

/** Pearson's correlation; 0 where one side does not vary. */
function correlation(a: readonly number[], b: readonly number[]): number {
  const meanA = mean(a);
  const meanB = mean(b);
  const product = a.reduce((sum, value, i) => sum + (value - meanA) * ((b[i] ?? 0) - meanB), 0);
  const spread = Math.sqrt(squares(a, meanA) * squares(b, meanB));
  return spread === 0 ? 0 : product / spread;
}

/** Sum of squared distances from the mean. */
function squares(values: readonly number[], centre: number): number {
  return values.reduce((sum, value) => sum + (value - centre) ** 2, 0);
}

/** Arithmetic mean. */
function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
