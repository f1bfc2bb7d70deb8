/*
 * The teacher's question: what did the foot do over the stretches of a pedal plan?
 *
 * Conventions: seconds; one entry for each time that a planned stretch was gone through, in order of time.
 * Method: the stretch begins and ends when its ticks were reached (moments.ts); one that a jump cuts off ends with the bars that were played.
 * Source: our own rule.
 * What it does not tell: whether the foot moved at the right moments inside.
 */
import { firstIndex } from '../base/index.js';
import { momentsOf } from './moments.js';
import type { Piece } from './piece.js';
import { highestBetween } from './soundEnds.js';

/** A foot that lifts as late as this after the beginning still belongs to what was before, seconds, and at most this share of the stretch. Our own rule. */
const LATE_S = 0.5;
const LATE_SHARE = 0.25;

/** A stretch along the printed bars, written ticks, the end exclusive. */
export interface WrittenStretch {
  readonly fromTick: number;
  readonly toTick: number;
}

/** A planned stretch as it was gone through. */
export interface FootOver<Entry extends WrittenStretch> {
  readonly entry: Entry;
  readonly stretch: number;
  readonly visitIndex: number;
  readonly fromS: number;
  readonly toS: number;
  /** Highest value of the sustain pedal in it, 0-127, what is left over from before not counted. */
  readonly depth: number;
}

/** The foot over some entries of a plan, in order of ticks. */
export function footOver<Entry extends WrittenStretch>(piece: Piece, entries: readonly Entry[]): readonly FootOver<Entry>[] {
  if (entries.length === 0) return [];
  const moments = momentsOf(piece);
  const { score, recording, alignment } = piece;
  return alignment.route.flatMap(({ index: stretch, fromVisit, toVisit }) => score.order.slice(fromVisit, toVisit + 1).flatMap((visit) => {
    const bar = score.bars[visit.barIndex];
    const last = score.order[toVisit];
    if (bar === undefined || last === undefined) return [];
    const lastTick = last.startTick + (score.bars[last.barIndex]?.lengthTicks ?? 0);
    const from = firstIndex(entries.length, (i) => (entries[i]?.fromTick ?? 0) >= bar.startTick);
    const to = firstIndex(entries.length, (i) => (entries[i]?.fromTick ?? 0) >= bar.startTick + bar.lengthTicks, from);
    return entries.slice(from, to).flatMap((entry): readonly FootOver<Entry>[] => {
      const tick = visit.startTick + entry.fromTick - bar.startTick;
      const fromS = moments[stretch]?.(tick, null) ?? null;
      const toS = moments[stretch]?.(Math.min(lastTick, tick + entry.toTick - entry.fromTick), null) ?? null;
      return fromS === null || toS === null || toS <= fromS ? [] : [{ entry, stretch, visitIndex: visit.index, fromS, toS, depth: highestBetween(recording.sustain, fromS + Math.min(LATE_S, LATE_SHARE * (toS - fromS)), toS) }];
    });
  }));
}
