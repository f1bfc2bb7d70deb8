/*
 * Question: with which cadence does a phrase close?
 * Conventions: kinds in the British sense: perfect V-I, imperfect ending on V, interrupted V to another chord than I
 *   (usually VI), plagal IV-I. The place is the last chord's.
 * Method: the last two harmonies of the phrase in the key of the last one. The cadential six-four belongs to the dominant.
 * Source: textbook definitions (references: trade usage).
 * What it does not tell: how final it sounds; a perfect cadence with the third on top counts the same.
 */
import { mod } from './pitchNames.js';
import type { Cadence, CadenceKind, Harmony, KeySpan } from './types.js';

/** The kind of close that a harmony makes after those before it, or null. */
export function closingKind(harmonies: readonly Harmony[], i: number, keys: readonly KeySpan[]): CadenceKind | null {
  const last = harmonies[i];
  const key = last === undefined ? undefined : keyAt(keys, last.fromTick);
  if (last === undefined || last.root === null || key === undefined) return null;
  const degree = mod(last.root - key.tonic, 12);
  const before = harmonies[i - 1];
  const rootBefore = before?.root ?? null;
  const cameFrom = rootBefore === null ? null : mod(rootBefore - key.tonic, 12);
  if (degree === 0) return tonicClose(last, cameFrom, before);
  // a dominant is reached once: its seventh, added later, is on its way on
  if (degree === 7 && before !== undefined && rootBefore === last.root && !isSixFour(before)) return null;
  if (degree === 7 && isTriad(last)) return last.inversion === 0 || last.inversion === null ? 'imperfect' : null;
  const turnedAside = cameFrom === 7 && (degree === 9 || degree === 8) && last.inversion === 0;
  return turnedAside && before !== undefined && !isSixFour(before) ? 'interrupted' : null;
}

/** The cadences at the ends of phrases. */
export function cadencesAt(ends: readonly number[], harmonies: readonly Harmony[], keys: readonly KeySpan[]): readonly Cadence[] {
  return ends.flatMap((i) => {
    const harmony = harmonies[i];
    const kind = closingKind(harmonies, i, keys);
    if (harmony === undefined || kind === null) return [];
    return [{ tick: harmony.fromTick, barIndex: harmony.barIndex, offset: harmony.offset, kind }];
  });
}

/** A close on the tonic: after the dominant (or its leading-note chord) perfect, after the subdominant plagal. */
function tonicClose(last: Harmony, cameFrom: number | null, before: Harmony | undefined): CadenceKind | null {
  if (last.inversion !== 0 || before === undefined || isSixFour(before)) return null;
  if (cameFrom === 7) return 'perfect';
  return cameFrom === 5 ? 'plagal' : null;
}

/** Chords that can end an imperfect cadence: the dominant as a triad, or still as the six-four that delays it. */
function isTriad({ quality }: Harmony): boolean {
  return quality === 'major' || quality === 'openFifth' || quality === 'dominantSeventh';
}

/** Whether a harmony is a six-four still waiting for its dominant. */
function isSixFour({ quality }: Harmony): boolean {
  return quality === 'cadentialSixFour';
}

/** The key in force at a tick. */
function keyAt(keys: readonly KeySpan[], tick: number): KeySpan | undefined {
  return keys.findLast((span) => span.fromTick <= tick) ?? keys[0];
}
