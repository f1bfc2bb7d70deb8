/** How much there is to say of the rhythm, also below the thresholds from which single things are named. */
import { mean } from 'simple-statistics';
import type { RhythmFacts } from '../measure/index.js';
import { HALVED_TIMES } from './rhythmBeats.js';
import { DOTTED, TRIPLET_UP_TO } from './rhythmDots.js';
import { UNEVEN_SHARE } from './rhythmGroups.js';
import { BEHIND_MS } from './rhythmHands.js';
import { UNEVEN_VARIATION } from './rhythmFingers.js';
import { concernOf } from './weight.js';

/** What all things just below their thresholds weigh together: less than the first one above its own. */
const BELOW_WEIGHT = 0.25;

/** Fewest values (>=) for a mean. */
const LEAST_VALUES = 4;

/** Concern, 0-1, from the weights of what was found and from how near everything else comes. */
export function rhythmConcern(facts: RhythmFacts, weights: readonly number[]): number {
  const shares = (kind: 'dotted' | 'even', written: number, off: number): readonly number[] =>
    facts.figures.filter((figure) => figure.kind === kind).map(({ shares: [share = written] }) => Math.abs(share - written) / off);
  const parts = [
    facts.steps.map(({ times }) => Math.abs(Math.log(Math.max(times, HALVED_TIMES)) / Math.log(HALVED_TIMES))),
    shares('dotted', DOTTED, DOTTED - TRIPLET_UP_TO),
    shares('even', 0.5, UNEVEN_SHARE - 0.5),
    facts.runs.map(({ variationButLilt }) => variationButLilt / UNEVEN_VARIATION),
    facts.bars.flatMap(({ apart }) => apart.measured ? [Math.abs(apart.value.medianMs) / BEHIND_MS] : []),
  ].filter((part) => part.length >= LEAST_VALUES);
  if (parts.length === 0) return concernOf(weights);
  const near = mean(parts.map((part) => mean(part.map((one) => Math.min(1, one)))));
  return 1 - (1 - concernOf(weights)) * (1 - BELOW_WEIGHT * near);
}
