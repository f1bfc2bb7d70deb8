/*
 * The teacher's question: does one note stick out of its line?
 *
 * Conventions: velocity units, louder positive; one entry a struck note.
 * Method: a note is held against the loudest notes of the moments around it in its hand: against the louder of the three before and
 *   the three after, and against the level that four fifths of the moments within four crotchets stay under. The smaller of
 *   the two distances counts, so that neither a loud passage nor one loud neighbour makes a note stick out.
 *   Notes struck together are no neighbours: the top of a chord may be the loudest.
 * Source: our own rule.
 * What it does not tell: whether the note was meant (an accent, a high point); that is for judgement.
 */
import { quantileSorted } from 'simple-statistics';
import { firstIndex, measured, notMeasured, type Measured } from '../base/index.js';
import type { HandMoments, Struck, StruckMoment } from './struck.js';

/** How many moments on each side are its next neighbours. */
const NEXT_MOMENTS = 3;

/** How far its surroundings reach (<=) on each side, crotchets. */
const SURROUNDING_CROTCHETS = 4;

/** Share of the surrounding moments that the note is held against. */
const SURROUNDING_SHARE = 0.8;

/** Fewest neighbouring moments (>=) that tell a level. */
const LEAST_NEIGHBOURS = 4;

/** The loud notes around one moment. */
export interface Surroundings {
  /** Velocity that a note must pass to stick out. */
  readonly ceiling: number;
  /** Middle velocity of the next moments' loudest notes. */
  readonly middle: number;
}

/** What surrounds each moment of a hand; not measured where too little does. */
export function surroundingsOf(moments: HandMoments, ticksPerQuarter: number): readonly Measured<Surroundings>[] {
  const reach = SURROUNDING_CROTCHETS * ticksPerQuarter;
  return moments.map((moment, place) => {
    const next = [...moments.slice(Math.max(0, place - NEXT_MOMENTS), place), ...moments.slice(place + 1, place + 1 + NEXT_MOMENTS)];
    if (next.length < LEAST_NEIGHBOURS) return notMeasured('too few notes of the hand are near it');
    const from = firstIndex(moments.length, (i) => (moments[i]?.tick ?? Infinity) >= moment.tick - reach);
    const to = firstIndex(moments.length, (i) => (moments[i]?.tick ?? Infinity) > moment.tick + reach, from);
    const wide = [...moments.slice(from, place), ...moments.slice(place + 1, to)];
    return measured({ ceiling: Math.max(...next.map(loudest), wide.length < LEAST_NEIGHBOURS ? 0 : share(wide, SURROUNDING_SHARE)), middle: share(next, 0.5) });
  });
}

/** How far each struck note stands over its surroundings, by place in `Alignment.pairs`. */
export function overSurroundings(moments: HandMoments, surroundings: readonly Measured<Surroundings>[]): ReadonlyMap<number, Measured<number>> {
  const out = new Map<number, Measured<number>>();
  moments.forEach((moment, place) => {
    const around = surroundings[place] ?? notMeasured('nothing is near it');
    for (const { pair, velocity } of moment.notes) out.set(pair, around.measured ? measured(velocity - around.value.ceiling) : around);
  });
  return out;
}

function loudest(moment: StruckMoment): number {
  return moment.loudest;
}

/** Level that this share of the moments' loudest notes stay under. */
function share(moments: readonly StruckMoment[], part: number): number {
  return quantileSorted(moments.map(loudest).sort((a, b) => a - b), part);
}

/** True where other notes of the moment are louder: this one cannot stick out. */
export function underneath(note: Struck, moment: StruckMoment): boolean {
  return note.velocity < moment.loudest;
}
