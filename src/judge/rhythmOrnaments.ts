/*
 * Trills that stumble or stop, turns that limp.
 *
 * What is a fault: a trill whose strokes scatter as much as an uneven run's do, or that waits once; a turn with one of its small notes far too
 * long. Ornaments have their own rules: a trill may lean on its first note and quicken, one finger may be weaker than the other, and
 * how many strokes there are and with which it begins are the player's choice.
 */
import type { OrnamentStrokes } from '../measure/index.js';
import { UNEVEN_VARIATION } from './rhythmFingers.js';
import { findingOf, LEAST_OFF_MS, type RhythmGround } from './rhythmGround.js';
import type { Finding } from './types.js';

/** From this many times (>=) its usual distance on, a trill has stopped, and a turn limps: as long as three strokes. Our own rule; good players' longest stay below 2.4. */
export const STOPPED_TIMES = 3;

/** Slower (>) than this, ms a stroke, it is no ornament any more but notes. */
const SLOWEST_MS = 400;

/** How sure we are: what was struck between may be another voice's. */
const CONFIDENCE = 0.65;

/** Findings of all trills and turns. */
export function ornamentFindings(ground: RhythmGround): readonly Finding[] {
  return ground.facts.ornaments.flatMap((ornament) => ornamentFinding(ground, ornament));
}

/** What one shows: that it stops sooner than that it is uneven, since one wait makes it so. */
function ornamentFinding(ground: RhythmGround, ornament: OrnamentStrokes): readonly Finding[] {
  const { kind, stretch, visitIndex, hand, pairs, intervalMs, longestTimes, variationButLilt } = ornament;
  const visit = ground.visit(stretch, visitIndex);
  if (visit === undefined || intervalMs > SLOWEST_MS) return [];
  const found = { hand, visits: [visit], pairs, confidence: CONFIDENCE };
  if (longestTimes >= STOPPED_TIMES) {
    return findingOf(ground, { ...found, kind: kind === 'trill' ? 'stoppedTrill' : 'unevenTurn', value: longestTimes, unit: 'times', threshold: STOPPED_TIMES, ratio: longestTimes / STOPPED_TIMES });
  }
  if (kind !== 'trill' || variationButLilt * intervalMs < LEAST_OFF_MS) return [];
  return findingOf(ground, { ...found, kind: 'unevenTrill', value: 100 * variationButLilt, unit: '%', threshold: 100 * UNEVEN_VARIATION, ratio: variationButLilt / UNEVEN_VARIATION });
}
