/*
 * Question: which key is the whole piece in?
 * Conventions: keys by number.
 * Method: for every key the correlation of all durations with the published profile, plus the share of bars that the path
 *   spends there, plus credits for the signature, for the first bars (if the tonic chord is among theirs) and for the last root. The last root
 *   alone cannot outvote the rest: pieces close in another mode, and movements lead on.
 * Source: profiles of Krumhansl and Kessler 1982; the credits are our own.
 * What it does not tell: progressive tonality; such a piece gets the key it is in longest.
 */
import { inSignature } from './keyPath.js';
import { KEY_COUNT, keyCorrelations, tonicOf } from './profiles.js';

/** Credit for being one of the two keys of the first signature. A signature is rarely wrong, but names two keys. */
const SIGNATURE_CREDIT = 0.5;

/** Credit for being the key of the first bars, where its tonic chord is heard in them: a piece may begin away from home. */
const OPENING_CREDIT = 0.4;

/** Credit for a tonic that is the root of the last harmony. */
const CLOSING_CREDIT = 0.5;

/** Credit for all bars in the key; a part of them counts in proportion. */
const SHARE_CREDIT = 0.8;

/** What the key of the whole is found from. */
export interface KeyEvidence {
  /** Total duration of each pitch class. */
  readonly durations: readonly number[];
  /** Key of each bar. */
  readonly barKeys: readonly number[];
  /** First signature, sharps (+) or flats (-). */
  readonly fifths: number;
  /** Keys whose tonic triads are heard in the first bars. */
  readonly openingTriads: ReadonlySet<number>;
  /** Root of the last harmony, or null. */
  readonly lastRoot: number | null;
}

/** The key of the whole, and how far it leads the next best, 0-1. */
export function findGlobalKey(evidence: KeyEvidence): { readonly key: number; readonly confidence: number } {
  const { durations, barKeys, fifths, openingTriads, lastRoot } = evidence;
  const correlations = keyCorrelations(durations);
  const scores = Array.from({ length: KEY_COUNT }, (_, key) => {
    const share = barKeys.filter((other) => other === key).length / Math.max(1, barKeys.length);
    return (
      (correlations[key] ?? 0) + SHARE_CREDIT * share + (inSignature(key, fifths) ? SIGNATURE_CREDIT : 0) +
      (barKeys[0] === key && openingTriads.has(key) ? OPENING_CREDIT : 0) + (lastRoot === tonicOf(key) ? CLOSING_CREDIT : 0)
    );
  });
  const [best = 0, second = 0] = scores.toSorted((a, b) => b - a);
  return { key: scores.indexOf(best), confidence: Math.min(1, Math.max(0, best - second)) };
}
