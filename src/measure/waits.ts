/*
 * The teacher's question: where did the playing wait, how long, and does anything written let it?
 *
 * Conventions: seconds, and beats as they are felt; one entry a wait in order of time. A wait belongs to the moment that came
 *   late. Waits of a stretch are never held against its first and last moments.
 * Method: steps.ts gives each gap between moments of both hands what it took beyond the tempo on both sides. The same written
 *   place in other passes and tries is set beside it; so are slips in the bar or the one before, and what is written.
 * Source: our own rule. Shorter than 6 % of a single interval is not heard (Drake and Botte 1993), nor is the order of onsets less than
 *   60 ms apart sure.
 * What it does not tell: whether a wait was meant. Expression at high points, leaps and appoggiaturas looks the same.
 */
import { groupBy } from '../base/index.js';
import { beatTicks, visitAtTick, type Score } from '../score/index.js';
import { expectedBends, reasonsAt, type ExpectedBend } from './expectedBends.js';
import { freeOnset } from './hands.js';
import type { Piece } from './piece.js';
import { isWait } from './pulseAcrossWaits.js';
import type { Wait } from './pulseTypes.js';
import type { Step } from './steps.js';
import type { BarFacts } from './types.js';
import type { Analysis } from '../analysis/index.js';

/** Beats shorter than this (<), seconds, are felt in groups (a quick waltz in bars), … */
export const FELT_BEAT_LEAST_S = 0.5;

/** … of no more than this (<=): tempo is told best at 0.3 to 0.8 s (Drake and Botte 1993); … */
export const FELT_GROUP_MOST_S = 0.8;

/** … and longer ones (>) in parts: tempo is felt from 0.1 to 1.5 s (Drake and Botte 1993). */
export const FELT_BEAT_MOST_S = 1.5;

/** The steps of one stretch of the route. */
export interface StretchSteps {
  readonly stretch: number;
  readonly steps: readonly Step[];
}

/** What waits are found in. */
export interface WaitGround {
  readonly piece: Piece;
  readonly analysis: Pick<Analysis, 'sections' | 'phrases'>;
  readonly bars: readonly BarFacts[];
  readonly stretches: readonly StretchSteps[];
}

/** A step at its place, and the reasons that let it be. */
interface Placed {
  readonly step: Step;
  readonly stretch: number;
  readonly visitIndex: number;
  readonly beats: number;
}

/** Every wait, in order of time within its stretch. */
export function waitsOf(ground: WaitGround): readonly Wait[] {
  const { score } = ground.piece;
  const placed = ground.stretches.flatMap(({ stretch, steps }) => steps.map((step) => place(score, stretch, step)));
  const alike = groupBy(placed, (one) => writtenPlace(score, one));
  const bends = withOrnaments(score, expectedBends(score, ground.analysis));
  const slips = slipVisits(ground.bars);
  return placed.filter(({ step }) => isWait(step)).map((one): Wait => {
    const { step, stretch, visitIndex, beats } = one;
    const others = (alike.get(writtenPlace(score, one)) ?? []).filter((other) => other !== one);
    return {
      stretch, visitIndex, fromTick: step.fromTick, tick: step.tick, onsetS: step.onsetS, waitS: step.waitS, beats,
      times: step.gapS / step.expectedS, prepared: step.prepared,
      bend: reasonsAt(bends, { fromTick: step.fromTick, tick: step.tick, visitIndex })[0] ?? null,
      slip: slips.has(`${stretch}:${visitIndex}`) || slips.has(`${stretch}:${visitIndex - 1}`),
      elsewhere: others.map((other) => Math.max(0, other.beats)),
    };
  });
}

/** Where a step stands, and how many felt beats it took. */
function place(score: Score, stretch: number, step: Step): Placed {
  const visit = visitAtTick(score, step.tick);
  const bar = score.bars[visit.barIndex];
  const secondsATick = step.expectedS / (step.tick - step.fromTick);
  const beatS = bar === undefined ? FELT_BEAT_LEAST_S : feltBeat(secondsATick * beatTicks(score, bar), Math.round(bar.nominalTicks / beatTicks(score, bar)));
  return { step, stretch, visitIndex: visit.index, beats: step.waitS / beatS };
}

/** The length of the beat that is felt, seconds: quick beats in even groups of two or three, or the whole bar. @param beats in a bar */
export function feltBeat(beatS: number, beats: number): number {
  const groups = [1, 2, 3, beats].filter((group) => group > 0 && beats % group === 0).sort((a, b) => a - b);
  const group = groups.find((size) => size * beatS >= FELT_BEAT_LEAST_S) ?? groups.at(-1) ?? 1;
  return Math.min(group === 1 ? FELT_BEAT_MOST_S : FELT_GROUP_MOST_S, Math.max(FELT_BEAT_LEAST_S, group * beatS));
}

/** The same for a place in every pass and try. */
function writtenPlace(score: Score, { visitIndex, step }: Placed): string {
  const visit = score.order[visitIndex];
  return `${visit?.barIndex ?? -1}:${step.tick - (visit?.startTick ?? 0)}`;
}

/** Adds the places of grace notes, ornaments and rolled chords. */
function withOrnaments(score: Score, bends: readonly (readonly ExpectedBend[])[]): readonly (readonly ExpectedBend[])[] {
  const all = bends.map((own) => [...own]);
  for (const { noteIndex, visitIndex, onsetTick } of score.occurrences) {
    const note = score.notes[noteIndex];
    const own = all[visitIndex];
    if (note === undefined || freeOnset(note) === null || own === undefined) continue;
    if (own.at(-1)?.reason !== 'ornament' || own.at(-1)?.fromTick !== onsetTick) own.push({ reason: 'ornament', fromTick: onsetTick, toTick: onsetTick });
  }
  return all;
}

/** Visits with slips, as "stretch:visit". */
function slipVisits(bars: readonly BarFacts[]): ReadonlySet<string> {
  return new Set(bars.filter(({ wrong, missed, added }) => wrong + missed + added > 0).map(({ stretch, visitIndex }) => `${stretch}:${visitIndex}`));
}
