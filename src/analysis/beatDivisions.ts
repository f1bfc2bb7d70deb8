/**
 * The question: into what is a beat divided?
 * Conventions: offsets in ticks from the start of a span, ascending, each below the span's length.
 * Method: the coarsest even grid that holds all onsets. A division counts as even where at most one of its notes is left
 * out (tied over, a rest, or two joined as crotchet and quaver of a triplet), for divisions of more than four none.
 * It does not tell divisions that a program rounded to a coarser grid.
 */
import type { BeatDivision } from './beatTypes.js';

/** Finest even division that is looked for: 13 covers the groups that editions print over one beat or bar. */
const FINEST = 13;

/** Up to so many notes one may be missing (inclusive). */
const GAPS_UP_TO = 4;

/** The number of equal parts that the onsets divide the span into; null for uneven rhythms, 1 for one note at its start. */
export function evenDivision(offsets: readonly number[], spanTicks: number): number | null {
  const parts = gridOf(offsets, spanTicks);
  if (parts === null) return null;
  const missing = parts - offsets.length;
  return missing === 0 || (missing === 1 && parts <= GAPS_UP_TO) ? parts : null;
}

/** The coarsest grid that holds all onsets, as a number of parts; null beyond the finest, or for no onsets. */
function gridOf(offsets: readonly number[], spanTicks: number): number | null {
  if (offsets.length === 0) return null;
  for (let parts = 1; parts <= FINEST; parts += 1) {
    if (offsets.every((offset) => (offset * parts) % spanTicks === 0)) return parts;
  }
  return null;
}

/** True for a dotted pair: the second note on the last quarter of the span. */
export function isDottedPair(offsets: readonly number[], spanTicks: number): boolean {
  return offsets.length === 2 && offsets[0] === 0 && (offsets[1] ?? 0) * 4 === spanTicks * 3;
}

/** True for the figure of a siciliano: dotted quaver, semiquaver, quaver in a beat of three quavers. */
function isLilt(offsets: readonly number[], spanTicks: number): boolean {
  return offsets.length === 3 && offsets[0] === 0 && (offsets[1] ?? 0) * 2 === spanTicks && (offsets[2] ?? 0) * 3 === spanTicks * 2;
}

/** How a rhythm reader names the division of a beat. */
export function divisionName(offsets: readonly number[], beatTicks: number, compound: boolean): BeatDivision {
  if (compound && isLilt(offsets, beatTicks)) return 'lilt';
  if (isDottedPair(offsets, beatTicks)) return compound ? 'other' : 'dotted';
  const parts = evenDivision(offsets, beatTicks);
  // a single note after the beat says too little
  if (offsets.length < 2) return 'other';
  if (parts === 2) return compound ? 'duplet' : 'even';
  if (parts === 3) return compound ? 'threes' : 'triplet';
  return parts === 4 && offsets.length === 4 ? 'quarters' : 'other';
}

/** The onsets of two even divisions heard together, on their common grid. */
export interface CrossGrid {
  /** Slots of the common grid. */
  readonly slots: number;
  /** Slots on which something is struck, ascending. */
  readonly onsets: readonly number[];
  /** Slots from each onset to the next, the last up to the end. */
  readonly lengths: readonly number[];
}

/**
 * Two even divisions of one span together: 3 against 2 on six slots, 4 against 3 on twelve.
 * @throws RangeError for divisions that are not whole and positive
 */
export function crossGrid(first: number, second: number): CrossGrid {
  if (!Number.isInteger(first) || !Number.isInteger(second) || first < 1 || second < 1)
    throw new RangeError('divisions must be whole and positive');
  const slots = (first * second) / commonDivisor(first, second);
  const onsets = Array.from({ length: slots }, (_, slot) => slot).filter(
    (slot) => slot % (slots / first) === 0 || slot % (slots / second) === 0,
  );
  return { slots, onsets, lengths: onsets.map((onset, i) => (onsets[i + 1] ?? slots) - onset) };
}

/** Greatest common divisor. */
export function commonDivisor(a: number, b: number): number {
  return b === 0 ? a : commonDivisor(b, a % b);
}
