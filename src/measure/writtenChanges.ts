/*
 * The teacher's question: where on the page may the pedal have to change?
 *
 * Conventions: written ticks along the printed bars, in order, each once.
 * Method: where a harmony begins, and where a pedal mark, or what the teacher planned, stands alone.
 * Source: our own rule.
 * What it does not tell: whether it has to.
 */
import { isAsked, type Analysis } from '../analysis/index.js';

/** A place where the pedal may have to change. */
export interface WrittenChange {
  readonly writtenTick: number;
  /** Place in `Analysis.harmonies`; null where only a mark or the teacher's plan has one. */
  readonly harmony: number | null;
}

/** All places of a score. */
export function writtenChanges({ harmonies, pedalPlan }: Pick<Analysis, 'harmonies' | 'pedalPlan'>): readonly WrittenChange[] {
  const chords = harmonies.flatMap(({ fromTick, root }, harmony) => (root === null && (harmonies[harmony - 1]?.root ?? null) === null ? [] : [{ writtenTick: fromTick, harmony }]));
  const known = new Set(chords.map(({ writtenTick }) => writtenTick));
  const marks = pedalPlan.entries.filter((entry) => isAsked(entry) && !known.has(entry.fromTick));
  return [...chords, ...marks.map(({ fromTick }) => ({ writtenTick: fromTick, harmony: null }))].sort((a, b) => a.writtenTick - b.writtenTick);
}
