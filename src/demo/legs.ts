/** The way a player takes through a piece: legs without a jump, made from the planned faults of the route. */
import type { Hand } from './noteIds.js';
import { faultsOf, type Fault } from './plan.js';
import { findVisit, type Visit } from './visits.js';

/** A stretch played without a jump. */
export interface Leg {
  /** Visits from the first to the last, both played. */
  readonly visits: readonly Visit[];
  /** Divisions of the last visit that are played; `Infinity` for all. */
  readonly breakAt: number;
  readonly hands: Hand | 'both';
  /** Tempo against the player's own. */
  readonly tempo: number;
  /** Silence before it, seconds, counted from the last key let go; null where it goes on in time, as if nothing were missing. */
  readonly pauseS: number | null;
}

/** Silence between hands alone and hands together, seconds. */
const BEFORE_TOGETHER_S = 2.5;

/** The legs in playing order. */
export function legsOf(order: readonly Visit[], faults: readonly Fault[]): readonly Leg[] {
  const alone = faultsOf(faults, 'handAlone').map((fault) => handAlone(order, fault));
  const main = [shorten, leaveOutRepeat, skip, goBack].reduce<readonly Leg[]>(
    (legs, step) => step(legs, { order, faults }),
    [{ visits: order, breakAt: Infinity, hands: 'both', tempo: 1, pauseS: alone.length ? BEFORE_TOGETHER_S : 0 }],
  );
  return [...alone, ...main];
}

/** Which visit to each bar and pass the given leg is, from 1. */
export function attemptAt(legs: readonly Leg[], legIndex: number, visitIndex: number): number {
  return legs.slice(0, legIndex + 1).filter((leg) => leg.visits.some((visit) => visit.index === visitIndex)).length;
}

/** What the steps below need besides the legs. */
interface Context {
  readonly order: readonly Visit[];
  readonly faults: readonly Fault[];
}

/** One hand through some bars, before everything else. */
function handAlone(order: readonly Visit[], fault: Extract<Fault, { kind: 'handAlone' }>): Leg {
  const from = findVisit(order, fault.bars[0], 1).index;
  const to = findVisit(order, fault.bars[1], 1).index;
  return { visits: order.slice(from, to + 1), breakAt: Infinity, hands: fault.hand, tempo: fault.tempo, pauseS: fault.pauseS };
}

/** Ends after the last bar of a planned section. */
function shorten(legs: readonly Leg[], { order, faults }: Context): readonly Leg[] {
  const [fault] = faultsOf(faults, 'sectionOnly');
  if (!fault) return legs;
  const last = findVisit(order, fault.bars[1], fault.pass ?? 1).index;
  return legs.map((leg) => ({ ...leg, visits: leg.visits.filter((visit) => visit.index <= last) }));
}

/** Goes from the first time through straight into what follows the second: the first ending and the whole second pass fall away. */
function leaveOutRepeat(legs: readonly Leg[], { faults }: Context): readonly Leg[] {
  if (faultsOf(faults, 'repeatLeftOut').length === 0) return legs;
  return legs.flatMap((leg) => splitWithout(leg, (visit) => visit.pass === 2 || visit.bar.ending === 1));
}

/** Leaves planned bars out of every leg that has them. */
function skip(legs: readonly Leg[], { order, faults }: Context): readonly Leg[] {
  return faultsOf(faults, 'skipped').reduce((all, fault) => {
    const from = findVisit(order, fault.bars[0], fault.pass ?? 1).index;
    const to = findVisit(order, fault.bars[1], fault.pass ?? 1).index;
    return all.flatMap((leg) => splitWithout(leg, (visit) => visit.index >= from && visit.index <= to));
  }, legs);
}

/** Leaves visits out, which makes two legs of one; in time, since a player who skips does not notice. */
function splitWithout(leg: Leg, out: (visit: Visit) => boolean): readonly Leg[] {
  const first = leg.visits.findIndex(out);
  if (first < 0) return [leg];
  const before = leg.visits.slice(0, first);
  const after = leg.visits.slice(first).filter((visit) => !out(visit));
  return [{ ...leg, visits: before, breakAt: Infinity }, { ...leg, visits: after, pauseS: null }];
}

/** Cuts the last leg where it breaks off, and begins a new one further back that goes on to the same end. */
function goBack(legs: readonly Leg[], { order, faults }: Context): readonly Leg[] {
  return faultsOf(faults, 'wentBack').reduce((all, fault) => {
    const last = all.at(-1);
    if (!last) return all;
    const broken = findVisit(order, fault.bars[1], fault.pass ?? 1).index;
    const again = findVisit(order, fault.bars[0], fault.pass ?? 1).index;
    const before: Leg = { ...last, visits: last.visits.filter((visit) => visit.index <= broken), breakAt: fault.breakAt };
    const after: Leg = { ...last, visits: order.filter((visit) => visit.index >= again && last.visits.some((each) => each.index >= visit.index)), pauseS: fault.pauseS };
    return [...all.slice(0, -1), before, after];
  }, legs);
}
