/*
 * The teacher's question: how fast was it going just before this place, and just after it?
 *
 * Conventions: seconds a tick; the moments of both hands together, of one stretch of the route; what lies inside of the
 *   place is left out, so that a wrong length does not change the tempo it is held against.
 * Method: from every onset of the crotchets before (or after) the place to the first onset at least a crotchet later there is
 *   a tempo; the median of them is taken, so that one gap does not count.
 * Source: our own rule.
 * What it does not tell: the tempo inside the place, or whether it is a good one.
 */
import { median } from 'simple-statistics';
import { firstAtOrAfter, type PulsePoint } from './pulsePoints.js';

/** How far to look to either side (<=), crotchets: a bar of common time. */
export const TEMPO_REACH_CROTCHETS = 4;

/** Shortest way a tempo is drawn over (>=), crotchets: over less, uneven values would be taken for a change of tempo. */
const SPAN_CROTCHETS = 1;

/** Fewest tempos (>=) on a side that tell something. */
const LEAST_TEMPOS = 2;

/** Tempo on both sides of a place, seconds a tick; null where too little was played there. */
export interface TempoAround {
  readonly before: number | null;
  readonly after: number | null;
}

/** Tells the tempo around any place of a stretch. */
export type TempoTeller = (fromTick: number, toTick: number) => TempoAround;

/** A tempo drawn between two onsets. */
interface Slope {
  readonly tick: number;
  readonly untilTick: number;
  readonly secondsATick: number;
}

/** The tempos of one stretch. @param points by tick, both hands together */
export function tempoTeller(points: readonly PulsePoint[], ticksPerQuarter: number): TempoTeller {
  const slopes = slopesOf(points, SPAN_CROTCHETS * ticksPerQuarter);
  const reach = TEMPO_REACH_CROTCHETS * ticksPerQuarter;
  const within = (from: number, to: number): number | null => {
    const tempos: number[] = [];
    for (let i = firstAtOrAfter(points, from); i < slopes.length; i += 1) {
      const slope = slopes[i];
      if (slope === undefined || slope.untilTick > to) break;
      if (slope.secondsATick > 0) tempos.push(slope.secondsATick);
    }
    return tempos.length < LEAST_TEMPOS ? null : median(tempos);
  };
  return (fromTick, toTick) => ({ before: within(fromTick - reach, fromTick), after: within(toTick, toTick + reach) });
}

/** The tempo from each onset to the first that is far enough; onsets at the end have none. */
function slopesOf(points: readonly PulsePoint[], spanTicks: number): readonly Slope[] {
  const slopes: Slope[] = [];
  let end = 0;
  for (const { tick, onsetS } of points) {
    while ((points[end]?.tick ?? Infinity) < tick + spanTicks) end += 1;
    const until = points[end];
    if (until === undefined) break;
    slopes.push({ tick, untilTick: until.tick, secondsATick: (until.onsetS - onsetS) / (until.tick - tick) });
  }
  return slopes;
}

/** Seconds a tick as expected within the place: the mean of both sides, or the one that is known. */
export function expectedTempo({ before, after }: TempoAround): number | null {
  if (before === null || after === null) return before ?? after;
  return (before + after) / 2;
}
