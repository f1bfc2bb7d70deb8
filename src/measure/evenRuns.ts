/*
 * The teacher's question: does the run roll evenly, or does it limp and stumble?
 *
 * Conventions: a run is six notes or more of one value, at most a quaver, in one voice, cut at the bar lines (the first note of the
 *   next bar ends the run of this one). `variation` is the coefficient of variation of its distances, 0 upwards; `lilt` the
 *   share of the first of two notes, 0-1, pairs counted from the beat.
 * Method: the standard deviation (n - 2) of the distances about their own straight line, so that a run that gets quicker or slower
 *   is not uneven for that, by their mean. The lilt is the median over the pairs.
 * Source: Jabusch (2006): professionals' scales at 125 ms a note have 6.5 % (up) and 7.1 % (down); the straight line is our own rule.
 * What it does not tell: whether it is expression: a note leant on makes a run uneven, too.
 */
import { linearRegression, linearRegressionLine, mean, median, sum } from 'simple-statistics';
import type { Score } from '../score/index.js';
import type { EvenRun, LineMoment, VoiceLine } from './rhythmTypes.js';

/** Fewest distances (>=): five, of six notes, leave three degrees of freedom about a line. */
export const RUN_LEAST_DISTANCES = 5;

/** Longest value (<=) of a run, crotchets. */
export const RUN_LONGEST_CROTCHETS = 0.5;

/** The runs of one voice. */
export function evenRuns(line: VoiceLine, score: Score): readonly EvenRun[] {
  const longest = RUN_LONGEST_CROTCHETS * score.ticksPerQuarter;
  return equalParts(line.moments, longest).flatMap((part) => runOf(part, line, score) ?? []);
}

/** Neighbours at one distance, all of them played; a new part begins with every bar, and its first moment ends the one before. */
function equalParts(moments: readonly LineMoment[], longest: number): readonly (readonly LineMoment[])[] {
  const parts: LineMoment[][] = [];
  let part: LineMoment[] = [];
  let unit = 0;
  for (const [i, moment] of moments.entries()) {
    const distance = moment.tick - (moments[i - 1]?.tick ?? -Infinity);
    const last = part.at(-1);
    const goesOn = last !== undefined && moment.onsetS !== null && distance <= longest && (part.length === 1 || distance === unit);
    if (goesOn) part.push(moment);
    if (goesOn && moment.visitIndex === last.visitIndex) unit = distance;
    else {
      // of two parts of different values, the note between them belongs to both
      part = moment.onsetS === null ? [] : !goesOn && last !== undefined && distance <= longest ? [last, moment] : [moment];
      unit = distance;
      parts.push(part);
    }
  }
  return parts;
}

/** A run, if it is long enough and was played in its order. */
function runOf(part: readonly LineMoment[], { stretch, hand }: VoiceLine, score: Score): EvenRun | null {
  const [first, second] = part;
  const last = part.at(-1);
  const distancesS = part.slice(1).map((moment, i) => (moment.onsetS ?? 0) - (part[i]?.onsetS ?? 0));
  if (first === undefined || second === undefined || last === undefined || distancesS.length < RUN_LEAST_DISTANCES || Math.min(...distancesS) <= 0) return null;
  const start = score.order[first.visitIndex]?.startTick ?? 0;
  const unit = second.tick - first.tick;
  return {
    stretch, hand, fromVisit: first.visitIndex, toVisit: part.at(-2)?.visitIndex ?? last.visitIndex, fromTick: first.tick, toTick: last.tick,
    pairs: part.flatMap(({ pairs }) => pairs), intervalMs: median(distancesS) * 1000, variation: variationOf(distancesS),
    variationButLilt: variationButLilt(distancesS), lilt: liltOf(distancesS, ((first.tick - start) / unit) % 2 === 0 ? 0 : 1),
  };
}

/** Coefficient of variation about the straight line through the distances. */
export function variationOf(distances: readonly number[]): number {
  const off = offLine(distances.map((distance, i) => ({ place: i, distance })));
  return Math.sqrt(sum(off.map((one) => one ** 2)) / (distances.length - 2)) / mean([...distances]);
}

/** One distance of a run and its place in it. */
interface Step {
  readonly place: number;
  readonly distance: number;
}

/** How far each distance is off the straight line through all. */
function offLine(steps: readonly Step[]): readonly number[] {
  const line = linearRegressionLine(linearRegression(steps.map(({ place, distance }) => [place, distance])));
  return steps.map(({ place, distance }) => distance - line(place));
}

/** The variation that is left without a long-short lilt, which is a rhythm of its own, and without the distance that stands furthest off. */
export function variationButLilt(distances: readonly number[]): number {
  const side = (place: number): number => (place % 2 === 0 ? 1 : -1);
  const lilt = median(distances.slice(1).map((distance, i) => (side(i) * ((distances[i] ?? distance) - distance)) / 2));
  const level = distances.map((distance, place) => ({ place, distance: distance - side(place) * lilt }));
  const middle = median(level.map(({ distance }) => distance));
  const worst = [...level].sort((a, b) => Math.abs(b.distance - middle) - Math.abs(a.distance - middle))[0]?.place;
  const kept = level.filter(({ place }) => place !== worst);
  return Math.sqrt(sum(offLine(kept).map((one) => one ** 2)) / (kept.length - 2)) / mean([...distances]);
}

/** Middle share of the first of two. @param from 1 where the first distance is the second of its pair */
function liltOf(distances: readonly number[], from: number): number {
  const shares: number[] = [];
  for (let i = from; i + 1 < distances.length; i += 2) {
    const [one = 0, two = 0] = [distances[i], distances[i + 1]];
    shares.push(one / (one + two));
  }
  return median(shares);
}
