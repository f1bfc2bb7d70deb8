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
import { bothHands, firstAtOrAfter, type PulseLines } from './pulsePoints.js';
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
export function beatSteps({ score, lines, stretch, written }: StepGround): readonly BeatStep[] {
  const points = bothHands(lines);
  const intervals = points.slice(1).map(({ tick, onsetS }, i): Interval => {
    const from = points[i] ?? { tick, onsetS };
    return { tick: from.tick, ticks: tick - from.tick, secondsATick: (onsetS - from.onsetS) / (tick - from.tick) };
  });
  return intervals.flatMap(({ tick, ticks, secondsATick }) => {
    const visit = visitAtTick(score, tick);
    const bar = score.bars[visit.barIndex];
    const beats = bar === undefined ? 0 : ticks / beatTicks(score, bar);
    if (beats < STEP_BEATS[0] || beats >= STEP_BEATS[1] || anyWithin(written, tick, tick + ticks)) return [];
    const tempo = tempoAt(intervals, tick, STEP_REACH_CROTCHETS * score.ticksPerQuarter);
    return tempo > 0 ? [{ stretch, visitIndex: visit.index, hand: handAt(lines, tick), fromTick: tick, toTick: tick + ticks, pairs: pairsAt(written, tick), times: secondsATick / tempo }] : [];
  });
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
