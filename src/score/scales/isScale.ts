import { groupBy } from '../../base/index.js';
import type { Occurrence, Score } from '../types.js';

/** Fewest notes (>=) of a hand that make a scale or arpeggio: an octave of an arpeggio up and down. */
const LEAST_NOTES = 7;

/**
 * True for a scale or arpeggio, made here or brought along: in each hand that plays one line of equal notes that goes up and down, or down and up,
 * without a step back. The last note may be longer.
 */
export function isScale({ occurrences }: Pick<Score, 'occurrences'>): boolean {
  const hands = [...groupBy(occurrences, ({ staff }) => staff).values()];
  return hands.length > 0 && hands.every(isRun);
}

/** One hand's line. */
function isRun(notes: readonly Occurrence[]): boolean {
  const steps = notes.slice(1).map(({ midi, onsetTick }, i) => ({ up: Math.sign(midi - (notes[i]?.midi ?? 0)), ticks: onsetTick - (notes[i]?.onsetTick ?? 0) }));
  const turns = steps.slice(1).filter(({ up }, i) => up !== steps[i]?.up).length;
  return notes.length >= LEAST_NOTES && turns <= 1 && steps.every(({ up, ticks }) => up !== 0 && ticks === steps[0]?.ticks && ticks > 0);
}
