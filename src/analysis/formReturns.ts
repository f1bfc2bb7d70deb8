/*
 * Question: which stretches of bars come back later, note for note or varied?
 * Conventions: bars are places in `Score.bars`; a return has one lag (bars from source to return) and one shift (semitones).
 * Method: diagonals of the table of likenesses. Along each lag, bars that are alike at one shift join into a run; one bar less
 *   alike is bridged where the run goes on after it. A run as long as its lag would be an ostinato, so no more than the lag counts.
 * Source: diagonals of a self-similarity table: Foote 1999 (visualising music by self-similarity); the bridging is our own rule.
 * What it does not tell: which of the returns make the form; a figure repeated bar by bar returns too.
 */
import type { BarContent } from './formBars.js';
import { likeness, type Likeness } from './formLikeness.js';

/** A stretch of bars that comes back. */
export interface Return {
  /** First bar of the source and of the return. */
  readonly source: number;
  readonly target: number;
  /** Bars, at least `LEAST_BARS` and at most `target - source`. */
  readonly length: number;
  /** Mean likeness, 0-1. */
  readonly share: number;
  /** Semitones up from source to return. */
  readonly shift: number;
}

/** Bars at least this much alike belong to a return; `>=`. Set by reading varied returns in thirty scores. */
export const ALIKE = 0.5;

/** A bar this much alike is bridged inside a return; `>=`. */
const NEARLY_ALIKE = 0.25;

/** Shorter runs are figures, not returns. */
const LEAST_BARS = 2;

/** Longest score whose bars are all laid beside each other; beyond, the table would take too long. */
const MOST_BARS = 1200;

/** All returns, longest first, then by likeness. */
export function findReturns(bars: readonly BarContent[]): readonly Return[] {
  if (bars.length > MOST_BARS) return [];
  const found = bars.flatMap((_, lag) => (lag === 0 ? [] : alongLag(bars, lag)));
  return found.sort((a, b) => b.length - a.length || b.share - a.share || a.target - b.target);
}

/** The runs of one lag. */
function alongLag(bars: readonly BarContent[], lag: number): readonly Return[] {
  const likes = Array.from({ length: bars.length - lag }, (_, i) => likenessOf(bars, i, i + lag));
  const runs: Return[] = [];
  let from = 0;
  while (from < likes.length) {
    const end = runEnd(likes, from);
    if (end - from >= LEAST_BARS) runs.push(asReturn(likes, { from, end, lag }));
    from = Math.max(end, from + 1);
  }
  return runs;
}

/** The likeness of two bars, where both are there. */
function likenessOf(bars: readonly BarContent[], first: number, second: number): Likeness {
  const [a, b] = [bars[first], bars[second]];
  return a === undefined || b === undefined ? { share: 0, shift: 0 } : likeness(a, b);
}

/** The end (exclusive) of the run that begins here; the place itself where none does. */
function runEnd(likes: readonly Likeness[], from: number): number {
  const shift = likes[from]?.shift ?? 0;
  const alike = (at: number, least: number): boolean => {
    const like = likes[at];
    return like !== undefined && like.share >= least && (like.shift === shift || like.share < ALIKE);
  };
  if (!alike(from, ALIKE)) return from;
  let end = from + 1;
  while (alike(end, ALIKE) || (alike(end, NEARLY_ALIKE) && alike(end + 1, ALIKE))) end += 1;
  return end;
}

/** The record of a run. */
function asReturn(likes: readonly Likeness[], { from, end, lag }: { readonly from: number; readonly end: number; readonly lag: number }): Return {
  const inside = likes.slice(from, end);
  return {
    source: from,
    target: from + lag,
    length: Math.min(end - from, lag),
    share: inside.reduce((sum, like) => sum + like.share, 0) / inside.length,
    shift: likes[from]?.shift ?? 0,
  };
}
