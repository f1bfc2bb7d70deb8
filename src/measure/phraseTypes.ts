/** The records of phrases in loud and soft. Levels are velocity units as struck: what is heard, high notes and all. */
import type { Measured } from '../base/index.js';
import type { Hand } from './hands.js';

/** How the tune of one phrase went, each time it was gone through. */
export interface PhraseLevel {
  /** Place in `Analysis.phrases`. */
  readonly phrase: number;
  /** The hand that has most of its tune. */
  readonly hand: Hand;
  /** Place in `Alignment.route`. */
  readonly stretch: number;
  /** Places in `Score.order`, the last inclusive. */
  readonly fromVisit: number;
  readonly toVisit: number;
  readonly startS: number;
  /** Notes of the tune in it. */
  readonly notes: number;
  /** Mean level. */
  readonly level: number;
  /** Mean levels of the four quarters of its way; not measured where one of them has too few notes. */
  readonly quarters: Measured<readonly number[]>;
}

/** The last note of a phrase or of a slur in the tune. */
export interface EndingLevel {
  readonly of: 'phrase' | 'slur';
  readonly hand: Hand;
  readonly stretch: number;
  readonly visitIndex: number;
  /** Place in `Score.notes`. */
  readonly noteIndex: number;
  readonly startS: number;
  /** Velocity units over the note before it. */
  readonly overLast: number;
  /** Velocity units over the loudest of the notes that led to it (three at the most). */
  readonly overLoudest: number;
  /** True where it is weaker by the metre than the note before it: off the downbeat. */
  readonly weak: boolean;
  /** How long it is written to last against the note before it, times. */
  readonly longer: number;
}

/** Bars whose tune repeats that of the bars before them, note for note. */
export interface EchoLevel {
  readonly stretch: number;
  /** Places in `Score.order`, the last inclusive; as many bars before the first are repeated. */
  readonly fromVisit: number;
  readonly toVisit: number;
  readonly startS: number;
  /** Velocity units over what is repeated: an echo is negative. */
  readonly over: number;
}

/** Phrases, endings and echoes of a recording, in order of stretch and time. */
export interface PhraseFacts {
  readonly phrases: readonly PhraseLevel[];
  readonly endings: readonly EndingLevel[];
  readonly echoes: readonly EchoLevel[];
}
