/*
 * The teacher's question: what has this piece come to over the weeks, and what keeps coming back?
 *
 * Conventions: recordings in order of time; bars are places in `Score.bars`. A bar is clean in a recording that played it and has
 *   no remark on it. A recording that left a bar out says nothing about it, so "running" counts the recordings that hold the bar.
 * Source: "clean twice running" is common practice among teachers, no source.
 * What it does not tell: whether the remark was the same each time.
 */

/** One recording, as far as it is followed over the weeks. */
export interface WeekEntry {
  /** Bars that were played. */
  readonly played: ReadonlySet<number>;
  /** Bars that something is remarked on. */
  readonly remarked: ReadonlySet<number>;
}

/** So many recordings running (>=) make a bar clean, … */
const CLEAN_RUNNING = 2;

/** … and so many a bar that keeps coming back. */
const STUBBORN_RUNNING = 3;

/** Bars that were clean in the last two recordings that hold them, in order. */
export function cleanTwiceRunning(entries: readonly WeekEntry[]): readonly number[] {
  return barsWhere(entries, CLEAN_RUNNING, ({ remarked }, bar) => !remarked.has(bar));
}

/** Bars that were remarked on in each of the last three recordings that hold them, in order. */
export function comingBack(entries: readonly WeekEntry[]): readonly number[] {
  return barsWhere(entries, STUBBORN_RUNNING, ({ remarked }, bar) => remarked.has(bar));
}

/** The first recording after this one from which on a stretch of bars is clean wherever it was played; null where there is none. */
export function settledBy(entries: readonly WeekEntry[], after: number, bars: readonly number[]): number | null {
  const holding = entries.flatMap((entry, index) => (index > after && bars.every((bar) => entry.played.has(bar)) ? [{ entry, index }] : []));
  const clean = holding.map(({ entry }) => bars.every((bar) => !entry.remarked.has(bar)));
  const from = clean.lastIndexOf(false) + 1;
  return holding[from]?.index ?? null;
}

/** Bars for which something held in each of the last so many recordings that played them. */
function barsWhere(entries: readonly WeekEntry[], running: number, test: (entry: WeekEntry, bar: number) => boolean): readonly number[] {
  const bars = [...new Set(entries.flatMap(({ played }) => [...played]))].sort((a, b) => a - b);
  return bars.filter((bar) => {
    const holding = entries.filter(({ played }) => played.has(bar)).slice(-running);
    return holding.length === running && holding.every((entry) => test(entry, bar));
  });
}
