import { mean, median, quantile } from 'simple-statistics';
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

/** Share of the neighbours that must stand off to the same side at least as far as is taken out: more than an even lilt, which splits them in halves. */
const BEND_SHARE = 2 / 3;

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

const ALONE: Neighbours = { before: [], after: [] };

/**
 * The local pulse of a run without a stop. For each hand, every line through one onset before and one after the tick gives
 * a moment; the median of them is taken (as Theil 1950 and Sen 1968 do for slopes), whatever is played at the
 * tick itself left out. Where the tempo changes, such lines run beside the curve, for every onset around by about as
 * much: what the neighbours themselves deviate, as far as they agree, is added. Of two hands that move about
 * equally fast the mean is taken.
 */
export function localPulse(lines: PulseLines, ticksPerQuarter: number): Pulse {
  const hands = HANDS.map((hand) => handPulse(lines[hand], ticksPerQuarter));
  return remembered((tick) => {
    const said = hands.map((expect) => expect(tick)).filter((one) => one !== null);
    const closest = Math.min(...said.map((one) => one.spacing));
    const asked = said.filter((one) => one.spacing <= SLOWER_HAND_TIMES * closest);
    return asked.length > 0 ? mean(asked.map((one) => one.onsetS)) : null;
  });
}

/** All notes of a chord, and both hands, ask for the same tick: it is worked out once. */
function remembered(pulse: Pulse): Pulse {
  const known = new Map<number, number | null>();
  return (tick) => {
    const before = known.get(tick);
    if (before !== undefined) return before;
    const value = pulse(tick);
    known.set(tick, value);
    return value;
  };
}

/** What one hand says about any tick; its own ticks, which are asked most, are worked out beforehand. */
function handPulse(points: readonly PulsePoint[], ticksPerQuarter: number): (tick: number) => Expected | null {
  const around = points.map(({ tick }) => neighboursOf(points, tick, ticksPerQuarter));
  const straight = points.map(({ tick }, place) => onLines(points, around[place] ?? ALONE, tick));
  const deviations = points.map(({ onsetS }, place) => {
    const expectedS = straight[place] ?? null;
    return expectedS === null ? null : onsetS - expectedS;
  });
  return (tick) => {
    const place = firstAtOrAfter(points, tick);
    const own = points[place]?.tick === tick;
    const neighbours = (own ? around[place] : undefined) ?? neighboursOf(points, tick, ticksPerQuarter);
    const onsetS = own ? straight[place] ?? null : onLines(points, neighbours, tick);
    return onsetS === null ? null : { onsetS: onsetS + bendOf(deviations, neighbours), spacing: spacingOf(points, neighbours) };
  };
}

/**
 * By how much the neighbours themselves stand off their own lines, as far as they agree. A changing tempo does that to
 * all of them alike; a lilt or an uneven finger does it to some one way and to some the other, and then nothing is taken.
 */
function bendOf(deviations: readonly (number | null)[], { before, after }: Neighbours): number {
  const bends = [...before, ...after].map((place) => deviations[place] ?? null).filter((one) => one !== null);
  if (bends.length < LEAST_BENDS) return 0;
  const [low = 0, high = 0] = quantile(bends, [1 - BEND_SHARE, BEND_SHARE]);
  return Math.max(0, low) + Math.min(0, high);
}

/** Median of the moments that the lines from each onset before to each onset after give the tick. */
function onLines(points: readonly PulsePoint[], { before, after }: Neighbours, tick: number): number | null {
  const moments: number[] = [];
  for (const b of before) {
    for (const a of after) moments.push(onLine(points[b], points[a], tick));
  }
  return moments.length > 0 ? median(moments) : null;
}

/** The moment that the line through two onsets gives the tick. */
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

/** The nearest onsets on either side, as far as the named reaches go; what stands at the tick itself is none of them. */
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
