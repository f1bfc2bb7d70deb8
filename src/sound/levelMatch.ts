/*
 * Two recordings at one level: by how much one is to be turned down so that both are heard alike.
 *
 * Conventions: decibels, never above 0: the louder one is turned down.
 * Method: energies of all strokes by velocity, per second of sound between the first and the last stroke.
 * Source: energies add (physics); level from velocity as for all measures (velocityLevel).
 * What it does not tell: what the pedal adds.
 */
import { levelDbOf, togetherDb } from '../measure/index.js';
import type { RecordedNote, Recording } from '../recording/index.js';

/** Shorter than this, seconds, a stretch is counted as this long: one chord alone. */
const LEAST_S = 1;

/** Gains of two recordings, dB, at least one of them 0. */
export interface Matched {
  readonly firstDb: number;
  readonly secondDb: number;
}

/** By how much each is turned down. A recording without notes is left as it is. */
export function levelsMatched(first: Pick<Recording, 'notes'>, second: Pick<Recording, 'notes'>): Matched {
  const [one, other] = [energyDb(first.notes), energyDb(second.notes)];
  if (one === null || other === null) return { firstDb: 0, secondDb: 0 };
  return { firstDb: Math.min(0, other - one), secondDb: Math.min(0, one - other) };
}

/** Energy a second, dB under the hardest stroke once a second; null for no notes. */
function energyDb(notes: readonly RecordedNote[]): number | null {
  const [first, last] = [notes[0], notes.at(-1)];
  if (first === undefined || last === undefined) return null;
  const seconds = Math.max(LEAST_S, last.onsetS - first.onsetS);
  return togetherDb(notes.map(({ velocity }) => levelDbOf(velocity))) - 10 * Math.log10(seconds);
}
