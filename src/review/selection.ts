import type { BarFacts } from '../measure/index.js';
import type { Strand } from '../judge/index.js';

/**
 * Which visit to each bar is shown on the score: the last try, or the tries of one strand of the route where it
 * covers a bar.
 * @param bars `Measures.bars`, in time order
 * @param strand the strand that was asked for, or null for the last tries
 * @returns one entry for every bar that was played, by its place in `Score.bars`
 */
export function shownVisits(bars: readonly BarFacts[], strand: Strand | null): ReadonlyMap<number, BarFacts> {
  const shown = new Map<number, BarFacts>();
  for (const bar of bars) shown.set(bar.barIndex, bar);
  if (strand === null) return shown;
  for (const bar of bars) {
    const covered = bar.stretch === strand.stretch && bar.visitIndex >= strand.fromVisit && bar.visitIndex <= strand.toVisit;
    if (covered) shown.set(bar.barIndex, bar);
  }
  return shown;
}

/** All visits to each bar, in time order, by the bar's place in `Score.bars`. */
export function visitsByBar(bars: readonly BarFacts[]): ReadonlyMap<number, readonly BarFacts[]> {
  const visits = new Map<number, BarFacts[]>();
  for (const bar of bars) {
    const known = visits.get(bar.barIndex);
    if (known === undefined) visits.set(bar.barIndex, [bar]);
    else known.push(bar);
  }
  return visits;
}
