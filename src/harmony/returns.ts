/*
 * Question: at which bars does something heard before begin again?
 * Conventions: bars by number.
 * Method: bars are alike where most of the tune's onsets (place in the bar, distance from the bar's first note)
 *   are shared, in whatever key; a return begins where a bar and its
 *   follower are alike to an earlier pair and the bars before the two pairs are not.
 * Source: parallelism as a cue of grouping, Lerdahl and Jackendoff 1983 (grouping preference rule 6); the measure is our own.
 * What it does not tell: varied returns.
 */
import type { Score } from '../score/index.js';
import type { SoundingNote } from './notes.js';
import { mod } from './pitchNames.js';

/** Share (inclusive) of the onsets of two bars that must agree. */
const ALIKE_SHARE = 0.6;

/** Fewest onsets (inclusive) that a bar must have to be recognised. */
const LEAST_ONSETS = 2;

/** Bars at which a return begins. */
export function returnBars(score: Score, tune: readonly SoundingNote[]): ReadonlySet<number> {
  const figures = score.bars.map(() => new Set<number>());
  let at = 0;
  let heard = -1;
  let first = 0;
  for (const note of tune) {
    while (at + 1 < score.bars.length && (score.bars[at + 1]?.startTick ?? Infinity) <= note.onset) at += 1;
    const bar = score.bars[at];
    if (bar === undefined) continue;
    if (at !== heard) first = note.midi;
    heard = at;
    figures[at]?.add((note.onset - bar.startTick) * 12 + mod(note.midi - first, 12));
  }
  const returns = new Set<number>();
  for (let bar = 1; bar < figures.length; bar += 1)
    for (let old = 0; old < bar && !returns.has(bar); old += 1) {
      const pair = alike(figures[bar], figures[old]) && alike(figures[bar + 1], figures[old + 1]);
      if (pair && bar - old > 1 && !alike(figures[bar - 1], figures[old - 1])) returns.add(bar);
    }
  return returns;
}

/** Whether two bars share most of their onsets. */
function alike(a: ReadonlySet<number> | undefined, b: ReadonlySet<number> | undefined): boolean {
  if (a === undefined || b === undefined || a.size < LEAST_ONSETS || b.size < LEAST_ONSETS) return false;
  let shared = 0;
  for (const figure of a) if (b.has(figure)) shared += 1;
  return shared >= ALIKE_SHARE * Math.max(a.size, b.size);
}
