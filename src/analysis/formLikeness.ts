/*
 * Question: how alike are two bars, and at which transposition?
 * Conventions: likeness 0-1; a shift is semitones from the first bar to the second; 0 shared content gives 0.
 * Method: the share of common elements (twice the common ones over all, Dice 1945) of sounds, tune, onsets and roots, weighed and
 *   added. Tried at no shift, an octave either way, and where the first notes of tune and bass would lie.
 * Source: the coefficient: Dice 1945, Ecology 26; weights are our own rule, set by reading the returns of thirty scores.
 * What it does not tell: whether a listener would notice; that depends on what stands between.
 */
import type { BarContent } from './formBars.js';

/** How alike two bars are at the best shift. */
export interface Likeness {
  readonly share: number;
  /** Semitones. */
  readonly shift: number;
}

/** Weights of sounds, tune, onsets and roots; they add up to 1. */
const WEIGHT = { sounds: 0.5, tune: 0.2, onsets: 0.15, roots: 0.15 } as const;

/** Bars with fewer common onsets than this are not compared further: no return of the same music. */
const LEAST_ONSETS = 0.3;

/** Nothing in common. */
const UNLIKE: Likeness = { share: 0, shift: 0 };

/** The best likeness of two bars over the shifts worth trying. */
export function likeness(first: BarContent, second: BarContent): Likeness {
  if (first.sounds.length === 0 || second.sounds.length === 0) return UNLIKE;
  const onsets = common(first.onsets, second.onsets, 0);
  if (onsets < LEAST_ONSETS) return UNLIKE;
  let best = UNLIKE;
  for (const shift of shiftsToTry(first, second)) {
    const share = likenessAt(first, second, { shift, onsets });
    if (share > best.share) best = { share, shift };
  }
  return best;
}

/** The likeness at a given shift. */
export function likenessAt(first: BarContent, second: BarContent, { shift, onsets = common(first.onsets, second.onsets, 0) }: { readonly shift: number; readonly onsets?: number }): number {
  const sounds = common(first.sounds, second.sounds, shift);
  const tune = common(first.tune, second.tune, shift);
  return WEIGHT.sounds * sounds + WEIGHT.tune * tune + WEIGHT.onsets * onsets + WEIGHT.roots * commonRoots(first.roots, second.roots, shift);
}

/** Twice the common elements over all elements of two ascending lists, the first shifted; 1 for two empty lists. */
export function common(first: readonly number[], second: readonly number[], shift: number): number {
  if (first.length + second.length === 0) return 1;
  let [i, j, both] = [0, 0, 0];
  while (i < first.length && j < second.length) {
    const difference = (first[i] ?? 0) + shift - (second[j] ?? 0);
    if (difference === 0) both += 1;
    if (difference <= 0) i += 1;
    if (difference >= 0) j += 1;
  }
  return (2 * both) / (first.length + second.length);
}

/** Share of the beats of the shorter bar with the same root, shifted. */
export function commonRoots(first: readonly (number | null)[], second: readonly (number | null)[], shift: number): number {
  const beats = Math.min(first.length, second.length);
  let same = 0;
  for (let i = 0; i < beats; i++) {
    const [a, b] = [first[i] ?? null, second[i] ?? null];
    if (a !== null && b !== null && (((a + shift - b) % 12) + 12) % 12 === 0) same += 1;
  }
  return beats === 0 ? 0 : same / beats;
}

/** No shift first, so that it wins a tie; then octaves; then tune on tune and bass on bass. */
function shiftsToTry(first: BarContent, second: BarContent): readonly number[] {
  const shifts = [0, 12, -12];
  for (const one of [firstDifference(first.tune, second.tune), firstDifference(first.left, second.left)]) if (!shifts.includes(one)) shifts.push(one);
  return shifts;
}

/** Semitones between the first notes of two lines that begin at the same offset; 0 where they do not. */
function firstDifference(first: readonly number[], second: readonly number[]): number {
  const difference = (second[0] ?? Infinity) - (first[0] ?? Infinity);
  return Math.abs(difference) < 64 ? difference : 0;
}
