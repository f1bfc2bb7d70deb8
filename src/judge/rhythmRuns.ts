/*
 * Runs that stumble.
 *
 * What is a fault: a run whose notes scatter more than twice as much as good players' do. One wait in it is left out: that is a hesitation.
 */
import type { EvenRun } from '../measure/index.js';
import { findingOf, type RhythmGround } from './rhythmGround.js';
import type { Finding } from './types.js';

/** Coefficient of variation (>=) from which a run is uneven: nineteen of twenty runs of good players are below 0.18, scales of professionals at 0.07 (Jabusch 2006). */
export const UNEVEN_VARIATION = 0.25;

/** Runs slower (>) than this, ms a note, are a line and no run. */
const RUN_SLOWEST_MS = 400;

/** How sure we are: leaning and lingering may be meant. */
const CONFIDENCE = 0.7;

/** Findings of uneven runs. */
export function runFindings(ground: RhythmGround): readonly Finding[] {
  return ground.facts.runs.flatMap((run) => runFinding(ground, run));
}

/** What one run shows. */
function runFinding(ground: RhythmGround, { stretch, fromVisit, toVisit, hand, pairs, intervalMs, variationButOne }: EvenRun): readonly Finding[] {
  const visits = [fromVisit, toVisit].map((visit) => ground.visit(stretch, visit)).filter((visit) => visit !== undefined);
  if (visits.length < 2 || intervalMs > RUN_SLOWEST_MS || variationButOne < UNEVEN_VARIATION) return [];
  return findingOf(ground, {
    kind: 'unevenRun', hand, visits, pairs, value: 100 * variationButOne, unit: '%', threshold: 100 * UNEVEN_VARIATION, ratio: variationButOne / UNEVEN_VARIATION, confidence: CONFIDENCE,
  });
}
