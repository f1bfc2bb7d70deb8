/*
 * The teacher's question: was the printed ritardando (or accelerando) made?
 *
 * Conventions: one entry a printed change that goes on by and by and was played; its end tempo is a share of the tempo before it. It holds until the next tempo
 *   mark, else two bars, else to the end; where it closes the piece, to the last onset.
 * Method: the tempo before is that of two bars before it. How long all of it took gives the end tempo on the curve of
 *   ritardando.ts; how far its onsets stand from that curve says how smooth it was.
 * Source: Friberg and Sundberg (1999).
 * What it does not tell: whether it was beautiful.
 */
import { median } from 'simple-statistics';
import { measured, notMeasured, type Measured } from '../base/index.js';
import { printedTempos, type BarVisit, type PrintedTempo, type Score } from '../score/index.js';
import type { Stretch } from '../align/index.js';
import { firstAtOrAfter, type PulsePoint } from './pulsePoints.js';
import type { TempoBend } from './pulseTypes.js';
import { fitRitardando, type RitardandoFit } from './ritardando.js';

/** How many bars a change holds where nothing takes it back. */
const BARS_HELD = 2;

/** How many bars before it tell the tempo. */
const BARS_BEFORE = 2;

/** Shortest way (>=), crotchets, that an end tempo is drawn from. */
const LEAST_CROTCHETS = 1;

/** Fewest moments before it (>=) that tell the tempo. */
const LEAST_BEFORE = 3;

const UNKNOWN = 'too little was played before it and in it';

/** Every printed change by and by that was played. @param moments of both hands, by stretch, waits left in */
export function tempoBends(score: Score, route: readonly Stretch[], moments: readonly (readonly PulsePoint[])[]): readonly TempoBend[] {
  const marks = printedTempos(score);
  return marks.filter(({ change }) => change === 'slowing' || change === 'quickening').flatMap((mark) => {
    const untilTick = endOf(score, mark, marks);
    return route.flatMap((stretch) => visitsOf(score, stretch, mark.barIndex).flatMap((visit) => bendOf(score, { mark, untilTick, stretch, visit, moments: moments[stretch.index] ?? [] })));
  });
}

/** Visits of a stretch to a bar. */
function visitsOf(score: Score, { fromVisit, toVisit }: Stretch, barIndex: number): readonly BarVisit[] {
  return score.order.slice(fromVisit, toVisit + 1).filter((visit) => visit.barIndex === barIndex);
}

/** Where a change ends, written ticks: at the next mark, or after two bars; within two bars of the end, at the end. */
function endOf({ bars }: Score, mark: PrintedTempo, marks: readonly PrintedTempo[]): number {
  const last = bars.at(-1);
  const end = last === undefined ? 0 : last.startTick + last.lengthTicks;
  const barTicks = bars[mark.barIndex]?.nominalTicks ?? 0;
  const held = mark.tick + BARS_HELD * barTicks;
  return Math.min(marks.find(({ tick }) => tick > mark.tick)?.tick ?? Infinity, held >= end - BARS_HELD * barTicks ? end : held);
}

/** One change in one visit. */
interface Ingredients {
  readonly mark: PrintedTempo;
  readonly untilTick: number;
  readonly stretch: Stretch;
  readonly visit: BarVisit;
  readonly moments: readonly PulsePoint[];
}

/** The change as it was played; none where its last bar was not reached. */
function bendOf(score: Score, { mark, untilTick, stretch, visit, moments }: Ingredients): readonly TempoBend[] {
  const barTicks = score.bars[mark.barIndex]?.nominalTicks ?? 0;
  const shift = visit.startTick - (score.bars[mark.barIndex]?.startTick ?? 0);
  const end = score.bars.at(-1);
  const closing = end !== undefined && untilTick === end.startTick + end.lengthTicks;
  const toVisit = lastVisit(score, visit, untilTick);
  const from = mark.tick + shift;
  const fit = toVisit > stretch.toVisit ? null : fitOf(moments, { from, until: untilTick + shift, before: from - BARS_BEFORE * barTicks, leastTicks: LEAST_CROTCHETS * score.ticksPerQuarter });
  return [{ mark, stretch: stretch.index, fromVisit: visit.index, toVisit: Math.min(toVisit, stretch.toVisit), closing, endTempo: told(fit, ({ endTempo }) => endTempo), offCurve: told(fit, ({ off }) => off) }];
}

/** The visit that holds the last of it. */
function lastVisit({ order, bars }: Score, visit: BarVisit, untilTick: number): number {
  let last = visit.index;
  while (bars[order[last]?.barIndex ?? -1] !== undefined && order[last + 1]?.barIndex === (order[last]?.barIndex ?? 0) + 1 && (bars[order[last + 1]?.barIndex ?? -1]?.startTick ?? Infinity) < untilTick) last += 1;
  return last;
}

/** Part of a fit, or why there is none. */
function told(fit: RitardandoFit | null, part: (fit: RitardandoFit) => number): Measured<number> {
  return fit === null ? notMeasured(UNKNOWN) : measured(part(fit));
}

/** Bounds of a change, unfolded ticks. */
interface Bounds {
  readonly from: number;
  readonly until: number;
  readonly before: number;
  readonly leastTicks: number;
}

/** The curve through the onsets of a change; null where too little tells the tempo before it, or was played in it. */
function fitOf(moments: readonly PulsePoint[], { from, until, before, leastTicks }: Bounds): RitardandoFit | null {
  const start = firstAtOrAfter(moments, from);
  const prior = moments.slice(firstAtOrAfter(moments, before), start + (moments[start]?.tick === from ? 1 : 0));
  const inside = moments.slice(start, firstAtOrAfter(moments, until + 1));
  const first = inside[0];
  const last = inside.at(-1);
  const slope = slopeOf(prior, leastTicks);
  if (first === undefined || last === undefined || slope === null || last.tick - first.tick < leastTicks) return null;
  const ticks = last.tick - first.tick;
  return fitRitardando(inside.slice(1).map(({ tick, onsetS }) => ({ x: (tick - first.tick) / ticks, time: (onsetS - first.onsetS) / (slope * ticks) })));
}

/** Seconds a tick: the middle of all ways of a crotchet or more between the moments before. */
function slopeOf(moments: readonly PulsePoint[], leastTicks: number): number | null {
  if (moments.length < LEAST_BEFORE) return null;
  const slopes = moments.flatMap((from, i) => moments.slice(i + 1).filter(({ tick }) => tick - from.tick >= leastTicks).map((to) => (to.onsetS - from.onsetS) / (to.tick - from.tick)));
  return slopes.length === 0 || median(slopes) <= 0 ? null : median(slopes);
}
