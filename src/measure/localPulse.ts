import { mean, median } from 'simple-statistics';
import { HANDS } from './hands.js';
import { firstAtOrAfter, type PulseLines, type PulsePoint } from './pulsePoints.js';

/** Onsets asked on either side (at least, where so many are within `FAR_CROTCHETS`): with three, one late neighbour cannot sway the median of the lines. */
export const LEAST_ONSETS = 3;

/** Onsets asked on either side (at most): two crotchets of quick triplets. */
export const MOST_ONSETS = 6;

/** How far the neighbours of quick notes may stand (<=), crotchets: about the length over which a tempo is felt. */
export const NEAR_CROTCHETS = 2;

/** How far any neighbour may stand (<=), crotchets: one bar of common time. */
export const FAR_CROTCHETS = 4;

/** A hand that moves more than this many times (>) slower than the other is not asked: its neighbours are too far off to follow the tempo. */
export const SLOWER_HAND_TIMES = 2;

/** Fewest neighbours (>=) with a deviation of their own for the bend of the tempo to be taken out. */
const LEAST_BENDS = 3;

/** When a tick is expected, seconds; null where too little was played around it. */
export type Pulse = (tick: number) => number | null;

/** What one hand alone says about a tick. */
interface Expected {
  readonly onsetS: number;
  /** Mean distance of its onsets around there, ticks. */
  readonly spacing: number;
}

/** Where the onsets before and after a tick stand in a hand's points, nearest first. */
interface Neighbours {
  readonly before: readonly number[];
  readonly after: readonly number[];
}

/**
 * The local pulse of a run without a stop. For each hand, every line through one onset before and one after the tick gives
 * a moment; the median of them is taken (as Theil 1950 and Sen 1968 do for slopes), whatever is played at the
 * tick itself left out. Where the tempo changes, such lines run beside the curve, for every onset around by about as
 * much: the median of what the neighbours themselves deviate is added. Of two hands that move about
 * equally fast the mean is taken.
 */
export function localPulse(lines: PulseLines, ticksPerQuarter: number): Pulse {
  const hands = HANDS.map((hand) => handPulse(lines[hand], ticksPerQuarter));
  return (tick) => {
    const said = hands.map((expect) => expect(tick)).filter((one) => one !== null);
    const closest = Math.min(...said.map((one) => one.spacing));
    const asked = said.filter((one) => one.spacing <= SLOWER_HAND_TIMES * closest);
    return asked.length > 0 ? mean(asked.map((one) => one.onsetS)) : null;
  };
}

function handPulse(points: readonly PulsePoint[], ticksPerQuarter: number): (tick: number) => Expected | null {
  const straight = (tick: number): number | null => onLines(points, neighboursOf(points, tick, ticksPerQuarter), tick);
  const deviations = points.map(({ tick, onsetS }) => {
    const expected = straight(tick);
    return expected === null ? null : onsetS - expected;
  });
  return (tick) => {
    const around = neighboursOf(points, tick, ticksPerQuarter);
    const onsetS = onLines(points, around, tick);
    if (onsetS === null) return null;
    const bends = [...around.before, ...around.after].map((place) => deviations[place] ?? null).filter((one) => one !== null);
    return { onsetS: onsetS + (bends.length >= LEAST_BENDS ? median(bends) : 0), spacing: spacingOf(points, around) };
  };
}

/** Median of the moments that the lines from each onset before to each onset after give the tick. */
function onLines(points: readonly PulsePoint[], { before, after }: Neighbours, tick: number): number | null {
  const moments = before.flatMap((b) => after.map((a) => onLine(points[b], points[a], tick)));
  return moments.length > 0 ? median(moments) : null;
}

function onLine(from: PulsePoint | undefined, to: PulsePoint | undefined, tick: number): number {
  if (from === undefined || to === undefined) throw new RangeError('a neighbour stands outside the points');
  return from.onsetS + ((tick - from.tick) / (to.tick - from.tick)) * (to.onsetS - from.onsetS);
}

/** Mean distance from the first to the last neighbour, an onset at the tick itself counted in. */
function spacingOf(points: readonly PulsePoint[], { before, after }: Neighbours): number {
  const first = before.at(-1) ?? 0;
  const last = after.at(-1) ?? 0;
  return ((points[last]?.tick ?? 0) - (points[first]?.tick ?? 0)) / (last - first);
}

function neighboursOf(points: readonly PulsePoint[], tick: number, ticksPerQuarter: number): Neighbours {
  const place = firstAtOrAfter(points, tick);
  const next = points[place]?.tick === tick ? place + 1 : place;
  const walk = (start: number, step: 1 | -1): readonly number[] => {
    const found: number[] = [];
    for (let i = start; found.length < MOST_ONSETS; i += step) {
      const reach = (found.length < LEAST_ONSETS ? FAR_CROTCHETS : NEAR_CROTCHETS) * ticksPerQuarter;
      const point = points[i];
      if (point === undefined || Math.abs(point.tick - tick) > reach) break;
      found.push(i);
    }
    return found;
  };
  return { before: walk(place - 1, -1), after: walk(next, 1) };
}
