/*
 * The teacher's question: on which beats is this hand early or late?
 *
 * Conventions: ms, late positive, against the local pulse; beats from 1, an upbeat counted from its end; `on` the beat itself, or within it.
 * Method: median of the deviations of one hand on one part of one visit to a bar.
 * Source: our own rule.
 * What it does not tell: whether it is heard, or meant.
 */
import { median } from 'simple-statistics';
import { groupBy } from '../base/index.js';
import { beatTicks } from '../score/index.js';
import { handOf, type Hand } from './hands.js';
import { writtenOf, type Piece } from './piece.js';
import type { BeatTiming } from './rhythmTypes.js';
import type { OnsetDeviation } from './types.js';

/** Timing by beats of one hand in one visit to a bar of one stretch. */
export type BeatTimings = (stretch: number, visitIndex: number, hand: Hand) => readonly BeatTiming[];

/** One deviation and where it stands. */
interface Placed {
  readonly beat: number;
  readonly on: boolean;
  readonly ms: number;
}

/** All timings by beats. @param onsets one entry a pair */
export function beatTimings(piece: Piece, onsets: readonly OnsetDeviation[]): BeatTimings {
  const placed = onsets.flatMap(({ pair, deviationMs }) => {
    const { occurrence, stretch } = piece.alignment.pairs[pair] ?? noPair();
    const { occurrence: written } = writtenOf(piece.score, occurrence);
    const key = `${stretch} ${written.visitIndex} ${handOf(written)}`;
    return deviationMs.measured ? [{ key, ...placeOf(piece, written.visitIndex, written.onsetTick), ms: deviationMs.value }] : [];
  });
  const visits = groupBy(placed, ({ key }) => key);
  return (stretch, visitIndex, hand) => timingsOf(visits.get(`${stretch} ${visitIndex} ${hand}`) ?? []);
}

/** Beat and whether it is on it. */
function placeOf({ score }: Piece, visitIndex: number, tick: number): Pick<Placed, 'beat' | 'on'> {
  const visit = score.order[visitIndex];
  const bar = visit === undefined ? undefined : score.bars[visit.barIndex];
  if (visit === undefined || bar === undefined) throw new RangeError(`the score has no visit ${visitIndex}`);
  const beat = beatTicks(score, bar);
  const offset = tick - visit.startTick + (bar.index === 0 ? Math.max(0, bar.nominalTicks - bar.lengthTicks) : 0);
  return { beat: 1 + Math.floor(offset / beat), on: offset % beat === 0 };
}

/** The middle of each part of the bar, in order. */
function timingsOf(placed: readonly Placed[]): readonly BeatTiming[] {
  const parts = [...groupBy(placed, ({ beat, on }) => 2 * beat + (on ? 0 : 1))].sort(([a], [b]) => a - b);
  return parts.map(([part, group]) => ({ beat: Math.floor(part / 2), on: part % 2 === 0, notes: group.length, medianMs: median(group.map(({ ms }) => ms)) }));
}

/** Onset deviations are one a pair. */
function noPair(): never {
  throw new RangeError('an onset deviation names no pair of this alignment');
}
