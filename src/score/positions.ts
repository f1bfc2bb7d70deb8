/** Small questions about places in a score that many stages ask. All of them are exact; none rounds. */
import type { Bar, BarVisit, Score } from './types.js';

/** A moment of the written score as a place in a bar. */
export interface BarPosition {
  readonly barIndex: number;
  /** Exact whole ticks from the start of the bar. */
  readonly offsetTicks: number;
}

/** Name of a bar as printed: "bar 12", "bar 12a", "the upbeat" for a first bar numbered 0. */
export function barLabel(bar: Pick<Bar, 'number' | 'index'>): string {
  return bar.number === '0' && bar.index === 0 ? 'the upbeat' : `bar ${bar.number}`;
}

/**
 * The bar that a written tick falls into; the start of a bar belongs to it, its end to the next. Ticks before the
 * first bar or after the last belong to the nearest one.
 * @throws RangeError for a score without bars
 */
export function barAtTick(score: Pick<Score, 'bars'>, tick: number): BarPosition {
  const bar = score.bars[lastStarted(score.bars, tick)];
  if (bar === undefined) throw new RangeError('A score without bars has no positions.');
  return { barIndex: bar.index, offsetTicks: tick - bar.startTick };
}

/**
 * The visit that an unfolded tick falls into, by the same rule.
 * @throws RangeError for a score without a playing order
 */
export function visitAtTick(score: Pick<Score, 'order'>, unfoldedTick: number): BarVisit {
  const visit = score.order[lastStarted(score.order, unfoldedTick)];
  if (visit === undefined) throw new RangeError('A score without a playing order has no visits.');
  return visit;
}

/** Ticks as crotchets, for display and for files; the ticks stay the exact value. */
export function ticksToCrotchets(score: Pick<Score, 'ticksPerQuarter'>, ticks: number): number {
  return ticks / score.ticksPerQuarter;
}

/** Length of one beat in ticks: three units in compound time (6, 9, 12 … beats), else what the time signature names. */
export function beatTicks(score: Pick<Score, 'ticksPerQuarter'>, bar: Pick<Bar, 'time'>): number {
  const { beats, beatType } = bar.time;
  const unit = (4 * score.ticksPerQuarter) / beatType;
  return beats > 3 && beats % 3 === 0 ? 3 * unit : unit;
}

/** Place of the last item that has started at a tick, 0 at least. Binary search; items are in order of time. */
function lastStarted(items: readonly { readonly startTick: number }[], tick: number): number {
  let low = 0;
  let high = items.length - 1;
  while (low < high) {
    const middle = Math.ceil((low + high) / 2);
    if ((items[middle]?.startTick ?? 0) <= tick) low = middle;
    else high = middle - 1;
  }
  return low;
}
