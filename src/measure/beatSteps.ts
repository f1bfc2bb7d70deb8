/*
 * The teacher's question: do notes of one length get one length, or are some halved and some doubled?
 *
 * Conventions: from one onset to the next, of whichever hand, where a beat or more and less than two lie between on paper and nothing else is
 *   written there. A ratio of times, 1 as the tempo around has it; ticks of the playing order.
 * Method: the tempo around is the median of all that is played within two bars of common time on either side, the place itself
 *   counted in, weighed by written length, so that a tempo that changes is followed and a few wrong lengths do not count.
 * Source: our own rule.
 * What it does not tell: a step lengthened once from a hesitation; and where more than half of all is wrong, which half is.
 */
import { firstIndex, measured, notMeasured, type Measured } from '../base/index.js';
import { mean } from 'simple-statistics';
import { beatTicks, visitAtTick, type Score } from '../score/index.js';
import type { Hand } from './hands.js';
import { bothHands, firstAtOrAfter, type PulseLines, type PulsePoint } from './pulsePoints.js';
import type { BeatStep } from './rhythmTypes.js';

/** How far to look to either side (<=), crotchets: two bars of common time. */
export const STEP_REACH_CROTCHETS = 8;

/** Length of a step, beats: from the first (>=) to the second (<). */
const STEP_BEATS = [1, 2] as const;

/** Fewest steps (>=) of a bar for their mean. */
const LEAST_STEPS = 2;

/** From one onset to the next. */
interface Interval {
  readonly tick: number;
  readonly ticks: number;
  readonly secondsATick: number;
}

/** What steps of one stretch are read from. */
export interface StepGround {
  readonly score: Score;
  readonly lines: PulseLines;
  readonly stretch: number;
  /** All written onsets, by tick. */
  readonly written: readonly { readonly tick: number; readonly pairs: readonly number[] }[];
}

/** All steps of one stretch. */
export function beatSteps(ground: StepGround): readonly BeatStep[] {
  const points = bothHands(ground.lines);
  const intervals = points.slice(1).map((to, i) => intervalBetween(points[i] ?? to, to));
  const steps = intervals.flatMap((one) => isStep(ground, one) ? stepOf(ground, { one, intervals, upbeat: false }) : []);
  return [...upbeat(ground, points, intervals), ...steps];
}

/** From one onset to a later one. */
function intervalBetween(from: PulsePoint, to: PulsePoint): Interval {
  return { tick: from.tick, ticks: to.tick - from.tick, secondsATick: (to.onsetS - from.onsetS) / (to.tick - from.tick) };
}

/** True for a way of a beat or more and less than two in which nothing else is written. */
function isStep({ score, written }: StepGround, { tick, ticks }: Interval): boolean {
  const bar = score.bars[visitAtTick(score, tick).barIndex];
  const beats = bar === undefined ? 0 : ticks / beatTicks(score, bar);
  return beats >= STEP_BEATS[0] && beats < STEP_BEATS[1] && !anyWithin(written, tick, tick + ticks);
}

/** One way against the tempo around it; none where that cannot be told. */
function stepOf({ score, lines, stretch, written }: StepGround, { one: { tick, ticks, secondsATick }, intervals, upbeat }: { readonly one: Interval; readonly intervals: readonly Interval[]; readonly upbeat: boolean }): readonly BeatStep[] {
  const tempo = tempoAt(intervals, tick, STEP_REACH_CROTCHETS * score.ticksPerQuarter);
  if (tempo <= 0) return [];
  return [{ stretch, visitIndex: visitAtTick(score, tick).index, hand: handAt(lines, tick), fromTick: tick, toTick: tick + ticks, pairs: pairsAt(written, tick), upbeat, times: secondsATick / tempo }];
}

/** The whole upbeat at the beginning of the piece, from its first onset to the first full bar. */
function upbeat(ground: StepGround, points: readonly PulsePoint[], intervals: readonly Interval[]): readonly BeatStep[] {
  const [bar] = ground.score.bars;
  const [first] = points;
  if (bar === undefined || first === undefined || bar.lengthTicks >= bar.nominalTicks || first.tick >= bar.lengthTicks) return [];
  const end = points[firstAtOrAfter(points, bar.lengthTicks)];
  return end?.tick === bar.lengthTicks ? stepOf(ground, { one: intervalBetween(first, end), intervals, upbeat: true }) : [];
}

/** True where something is written between two ticks. */
function anyWithin(written: readonly { readonly tick: number }[], from: number, to: number): boolean {
  const next = firstIndex(written.length, (i) => (written[i]?.tick ?? Infinity) > from);
  return (written[next]?.tick ?? Infinity) < to;
}

/** All notes written at a tick. */
function pairsAt(written: StepGround['written'], tick: number): readonly number[] {
  const pairs: number[] = [];
  for (let i = firstIndex(written.length, (at) => (written[at]?.tick ?? Infinity) >= tick); written[i]?.tick === tick; i += 1) pairs.push(...(written[i]?.pairs ?? []));
  return pairs;
}

/** The tempo around a tick, seconds a tick: every tick within reach has one say. */
function tempoAt(intervals: readonly Interval[], tick: number, reach: number): number {
  const near: Interval[] = [];
  for (let i = firstIndex(intervals.length, (at) => (intervals[at]?.tick ?? Infinity) >= tick - reach); i < intervals.length; i += 1) {
    const one = intervals[i];
    if (one === undefined || one.tick > tick + reach) break;
    near.push(one);
  }
  const half = near.reduce((sum, { ticks }) => sum + ticks, 0) / 2;
  let said = 0;
  for (const { ticks, secondsATick } of near.sort((a, b) => a.secondsATick - b.secondsATick)) {
    said += ticks;
    if (said >= half) return secondsATick;
  }
  return 0;
}

/** The hand that strikes at a tick; null where both do. */
function handAt({ right, left }: PulseLines, tick: number): Hand | null {
  const strikes = (points: PulseLines[Hand]): boolean => points[firstAtOrAfter(points, tick)]?.tick === tick;
  if (strikes(right)) return strikes(left) ? null : 'right';
  return 'left';
}

/** How far the steps of one bar are off on average, as a ratio of 1 and more. */
export function stepsOff(steps: readonly BeatStep[]): Measured<number> {
  if (steps.length < LEAST_STEPS) return notMeasured('too few steps of a beat are written here');
  return measured(Math.exp(mean(steps.map(({ times }) => Math.abs(Math.log(Math.max(times, LEAST_TIMES)))))));
}

/** A step played in no time at all counts as this much. */
const LEAST_TIMES = 0.1;
