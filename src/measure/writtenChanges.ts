/*
 * The teacher's question: where on the page may the pedal have to change?
 *
 * Conventions: written ticks along the printed bars, in order, each once.
 * Method: where a harmony begins; where a harmony that could not be told well moves on to another bass on a beat (it may be two harmonies); and
 *   where a pedal mark stands alone.
 * Source: our own rule; a moving bass often wants a new pedal (teachers' common practice).
 * What it does not tell: whether it has to.
 */
import { firstIndex } from '../base/index.js';
import type { Analysis } from '../analysis/index.js';
import { beatTicks, type Score } from '../score/index.js';

/** A place where the pedal may have to change. */
export interface WrittenChange {
  readonly writtenTick: number;
  /** Place in `Analysis.harmonies`; null where only a mark stands. */
  readonly harmony: number | null;
  /** True inside a harmony: the bass moves on. */
  readonly within: boolean;
}

/** A harmony surer (>=) than this is one, 0-1: where so much of its time is explained, what is left are passing notes. Our own rule. */
const SURE = 0.75;

/** All places of a score. */
export function writtenChanges(score: Score, { harmonies, pedalPlan }: Pick<Analysis, 'harmonies' | 'pedalPlan'>): readonly WrittenChange[] {
  const basses = bassMoves(score);
  const chords = harmonies.flatMap(({ fromTick, toTick, root, confidence }, harmony): readonly WrittenChange[] => {
    if (root === null && (harmonies[harmony - 1]?.root ?? null) === null) return [];
    const from = firstIndex(basses.length, (i) => (basses[i] ?? 0) > fromTick);
    const to = firstIndex(basses.length, (i) => (basses[i] ?? 0) >= toTick, from);
    const moves = confidence >= SURE ? [] : basses.slice(from, to);
    return [{ writtenTick: fromTick, harmony, within: false }, ...moves.map((writtenTick) => ({ writtenTick, harmony, within: true }))];
  });
  const known = new Set(chords.map(({ writtenTick }) => writtenTick));
  const marks = pedalPlan.entries.filter(({ source, fromTick }) => source === 'printed' && !known.has(fromTick));
  return [...chords, ...marks.map(({ fromTick }) => ({ writtenTick: fromTick, harmony: null, within: false }))].sort((a, b) => a.writtenTick - b.writtenTick);
}

/** Ticks on beats at which the lowest note that is struck differs from the one on the beat before. */
function bassMoves(score: Score): readonly number[] {
  const lowest = new Map<number, number>();
  for (const { cue, grace, onsetTick, pitch, barIndex } of score.notes) {
    const bar = score.bars[barIndex];
    if (cue || grace !== null || bar === undefined || (onsetTick - bar.startTick) % beatTicks(score, bar) !== 0) continue;
    lowest.set(onsetTick, Math.min(lowest.get(onsetTick) ?? Infinity, pitch.midi));
  }
  const beats = [...lowest].sort(([a], [b]) => a - b);
  return beats.flatMap(([tick, midi], i) => (midi % 12 !== (beats[i - 1]?.[1] ?? midi) % 12 ? [tick] : []));
}
