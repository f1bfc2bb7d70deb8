/*
 * The teacher's question: does the level grow over a written crescendo, and fall over a diminuendo?
 *
 * Conventions: velocity units with the register's trend taken off; `made` is the way from the hairpin's beginning to its end, as asked
 *   positive. Both ends count: the moment a hairpin leads to belongs to it.
 * Method: the loudest note of every moment, each hand for itself; the slope is the median of the slopes between all pairs of moments at least a
 *   quarter of the hairpin apart (Theil and Sen, with the near pairs left out, which tell of accents). Both hands' slopes are weighed by their moments.
 *   A hairpin may also be made in steps: where it is the greater, the mean of its last third against that of its first counts. Within a bar or two
 *   the metre hides it, so there the crotchets around its end against those around its beginning count as well. Hairpins of one kind that follow one another are one.
 * Source: a hairpin is a trend between its end points (notation). The standard error is that of a least-squares slope, from
 *   the scatter about the robust line.
 * What it does not tell: where within it the growth happened; hairpins over fewer than four moments of a hand.
 */
import { median, medianAbsoluteDeviation } from 'simple-statistics';
import { firstIndex, groupBy } from '../base/index.js';
import { visitAtTick, type Score } from '../score/index.js';
import { HANDS, type Hand } from './hands.js';
import type { HairpinPlayed } from './levelTypes.js';
import type { AskedHairpin, AskedOfHand } from './marksAsked.js';
import { meanOf, type HandMoments, type StruckNotes } from './struck.js';

/** Fewest moments (>=) of a hand that tell a trend. */
const LEAST_MOMENTS = 4;

/** More moments than this are thinned out evenly: their pairs would be too many, and tell no more. */
const MOST_MOMENTS = 48;

/** Hairpins up to this (<=), crotchets, are within the sway of a bar or two, and their ends count most. Our own rule: two bars of four. */
const SHORT_CROTCHETS = 8;

/** Pairs nearer than this share of the hairpin (<) say nothing of the trend. */
const NEAR_SHARE = 0.25;

/** From a median absolute deviation to a standard deviation of a normal distribution: 1/0.6745, its upper quartile. */
const MAD_TO_SD = 1 / 0.6745;

/** A moment as a point of the trend: x from 0 at the hairpin's beginning to 1 at its end. */
export interface TrendPoint {
  readonly x: number;
  /** Velocity units. */
  readonly y: number;
}

/** A robust slope over the whole of a hairpin, and how well it is known. */
export interface Trend {
  readonly units: number;
  readonly errorUnits: number;
  readonly points: number;
}

/** Every written hairpin that was played, in order of stretch and time. */
export function hairpinsPlayed(score: Score, { moments }: StruckNotes, asked: Readonly<Record<Hand, AskedOfHand>>): readonly HairpinPlayed[] {
  const all = groupBy(HANDS.flatMap((hand) => joined(asked[hand].hairpins, score.ticksPerQuarter).map((pin) => ({ hand, pin }))), ({ pin }) => `${pin.kind} ${pin.tick} ${pin.untilTick}`);
  return moments.flatMap((byHand, stretch) => [...all.values()].flatMap((group): readonly HairpinPlayed[] => {
    const pin = group[0]?.pin;
    if (pin === undefined) return [];
    const hands = group.map(({ hand }) => hand);
    const found = trendOver(pin, hands.map((hand) => byHand[hand]), score.ticksPerQuarter);
    if (found === null) return [];
    const sign = pin.kind === 'crescendo' ? 1 : -1;
    return [{
      kind: pin.kind, hand: hands.length === 1 ? (hands[0] ?? null) : null, stretch, visitIndex: pin.visitIndex, tick: pin.tick, untilTick: pin.untilTick,
      untilVisit: visitAtTick(score, pin.untilTick - 1).index, startS: found.startS, made: Math.max(...[found.units, ...found.otherUnits].map((units) => sign * units)), errorUnits: found.errorUnits,
    }];
  }));
}

/** Hairpins of one kind with no more than a crotchet between them as one. */
function joined(hairpins: readonly AskedHairpin[], ticksPerQuarter: number): readonly AskedHairpin[] {
  const out: AskedHairpin[] = [];
  for (const pin of hairpins) {
    const last = out.at(-1);
    if (last?.kind === pin.kind && pin.tick - last.untilTick <= ticksPerQuarter) out[out.length - 1] = { ...last, untilTick: Math.max(last.untilTick, pin.untilTick) };
    else out.push(pin);
  }
  return out;
}

/** The trend of all hands over a hairpin; null where no hand has enough moments. */
function trendOver(pin: AskedHairpin, hands: readonly HandMoments[], ticksPerQuarter: number): (Trend & { readonly startS: number; readonly otherUnits: readonly number[] }) | null {
  const { tick, untilTick } = pin;
  const inside = hands.map((moments) => {
    const from = firstIndex(moments.length, (i) => (moments[i]?.tick ?? Infinity) >= tick);
    return moments.slice(from, firstIndex(moments.length, (i) => (moments[i]?.tick ?? Infinity) > untilTick, from));
  });
  const trends = inside.flatMap((moments) => trendOf(moments.map((moment) => ({ x: (moment.tick - tick) / (untilTick - tick), y: Math.max(...moment.notes.map(({ levelled }) => levelled)) }))) ?? []);
  const points = trends.reduce((sum, one) => sum + one.points, 0);
  if (points === 0) return null;
  const startS = Math.min(...inside.flatMap((moments) => moments[0]?.onsetS ?? []));
  return {
    units: trends.reduce((sum, one) => sum + (one.units * one.points) / points, 0),
    errorUnits: Math.sqrt(trends.reduce((sum, one) => sum + (one.errorUnits * one.points) ** 2, 0)) / points,
    points, startS, otherUnits: stepsOf(hands.flat(), pin, ticksPerQuarter),
  };
}

/** Mean level of the last third over that of the first, and for short ones of the crotchets around the end over those around the beginning, velocity units. */
function stepsOf(moments: HandMoments, { tick, untilTick }: AskedHairpin, ticksPerQuarter: number): readonly number[] {
  const third = (untilTick - tick) / 3;
  const levels = (from: number, to: number): readonly number[] => moments.filter((one) => one.tick >= from && one.tick < to).flatMap(({ notes }) => notes.map(({ levelled }) => levelled));
  const over = (later: readonly number[], earlier: readonly number[]): readonly number[] => (later.length === 0 || earlier.length === 0 ? [] : [meanOf(later) - meanOf(earlier)]);
  const around = (at: number): readonly number[] => levels(at - ticksPerQuarter, at + ticksPerQuarter);
  const short = untilTick - tick <= SHORT_CROTCHETS * ticksPerQuarter;
  return [...over(levels(untilTick - third, untilTick + 1), levels(tick, tick + third)), ...(short ? over(around(untilTick), around(tick)) : [])];
}

/** The robust slope through points in order of x; null for fewer than four moments. */
export function trendOf(all: readonly TrendPoint[]): Trend | null {
  if (all.length < LEAST_MOMENTS) return null;
  const step = Math.ceil(all.length / MOST_MOMENTS);
  const points = all.filter((_, i) => i % step === 0);
  const slopes = points.flatMap((a, i) => points.slice(i + 1).flatMap((b) => (b.x - a.x < NEAR_SHARE ? [] : [(b.y - a.y) / (b.x - a.x)])));
  if (slopes.length === 0) return null;
  const units = median(slopes);
  const middle = points.reduce((sum, { x }) => sum + x, 0) / points.length;
  const spread = Math.sqrt(points.reduce((sum, { x }) => sum + (x - middle) ** 2, 0));
  return { units, errorUnits: (medianAbsoluteDeviation(points.map(({ x, y }) => y - units * x)) * MAD_TO_SD) / spread, points: all.length };
}
