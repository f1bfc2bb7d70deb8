/** The records of an alignment. Occurrence and note numbers index `Score.occurrences` and `Recording.notes`. */

/** A written note and the key press that played it. */
export interface Pair {
  readonly occurrence: number;
  readonly note: number;
  /** Place in `Alignment.route`. */
  readonly stretch: number;
  /** Which visit to this bar and pass, from 1. */
  readonly attempt: number;
  /** Played minus written pitch in octaves, after the keyboard's transposition: 0, or ±1, ±2 for an octave slip. */
  readonly octaveSlip: number;
}

/** A written note of a bar that was visited, by a hand that played, without a key press. */
export interface Missed {
  readonly occurrence: number;
  readonly stretch: number;
  readonly attempt: number;
}

/** A key press without a written note. */
export interface Added {
  readonly note: number;
  readonly stretch: number | null;
  /** The written note it was probably meant for, or the nearest one in time; null before and after the music. */
  readonly near: number | null;
  /** True where `near` is missed and this press most likely stands for it (a wrong note). */
  readonly instead: boolean;
}

/** A key press that an ornament sign explains, beyond the written note itself. */
export interface OrnamentNote {
  readonly occurrence: number;
  readonly note: number;
  readonly stretch: number;
}

/** Which hands play. */
export type Hands = 'both' | 'right' | 'left';

/** One stretch of the way through the score without a jump. Visits index `Score.order`. */
export interface Stretch {
  readonly index: number;
  readonly fromVisit: number;
  readonly toVisit: number;
  readonly startS: number;
  readonly endS: number;
  /** Attempt at the first bar of the stretch. */
  readonly attempt: number;
  readonly hands: Hands;
}

/** How one recording went through one score. */
export interface Alignment {
  readonly pairs: readonly Pair[];
  readonly missed: readonly Missed[];
  readonly added: readonly Added[];
  readonly ornaments: readonly OrnamentNote[];
  readonly route: readonly Stretch[];
  readonly hands: Hands | 'mixed';
  /** Semitones played above written. */
  readonly transposition: number;
  /** Share of performed notes that are paired or ornaments, 0-1. */
  readonly matched: number;
}
