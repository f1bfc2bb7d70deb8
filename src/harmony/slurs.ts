/*
 * Question: where do the long slurs of the tune end?
 * Conventions: written ticks; the onset of the last note under the slur.
 * Method: slurs of the topmost stave, a start paired with the next stop of its number; short ones are articulation and left out.
 * Source: a slur over a bar or more is a phrase mark (usual engraving practice).
 * What it does not tell: phrases that the composer did not slur.
 */
import type { Score, SlurEnd } from '../score/index.js';

/** Ends of slurs that last at least a bar. */
export function longSlurEnds(score: Score): readonly number[] {
  const top = score.notes.reduce((least, note) => Math.min(least, note.staff), Infinity);
  const open = new Map<number, number>();
  const ends: number[] = [];
  const marked = score.notes.filter((note) => note.staff === top && note.slurs.length > 0).toSorted((a, b) => a.onsetTick - b.onsetTick);
  for (const note of marked) {
    const of = (kind: SlurEnd['kind']): readonly SlurEnd[] => note.slurs.filter((slur) => slur.kind === kind);
    for (const { number } of of('stop')) {
      const from = open.get(number);
      open.delete(number);
      const bar = score.bars[note.barIndex];
      if (from !== undefined && bar !== undefined && note.onsetTick - from >= bar.nominalTicks) ends.push(note.onsetTick);
    }
    for (const { number } of of('start')) open.set(number, note.onsetTick);
  }
  return ends;
}
