import type { Occurrence, ScoreNote } from '../score/index.js';

/** A hand, by the stave its notes stand on. */
export type Hand = 'right' | 'left';

/** Both hands, right first. */
export const HANDS: readonly Hand[] = ['right', 'left'];

/** Stave 1 is the right hand, every lower one the left. */
export function handOf(occurrence: Pick<Occurrence, 'staff'>): Hand {
  return occurrence.staff <= 1 ? 'right' : 'left';
}

/**
 * Why the onset of a written note says nothing about the pulse: the end of "not measured, because …". Null for a note that
 * stands on its written moment.
 */
export function freeOnset(note: ScoreNote): string | null {
  if (note.grace !== null) return 'a grace note has no written moment of its own';
  if (note.ornaments.length > 0) return 'an ornament leaves open when its written note sounds';
  if (note.arpeggio !== null) return 'the notes of a rolled chord are spread on purpose';
  return null;
}
