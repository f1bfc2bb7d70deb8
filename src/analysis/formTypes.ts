/**
 * The records of a piece's form. Ticks are written ticks along the printed bars, ends exclusive; bars are places in
 * `Score.bars`, `toBar` inclusive.
 */

/** A moment of the written score. */
export interface ScorePlace {
  readonly tick: number;
  readonly barIndex: number;
  /** Crotchets from the start of the bar. */
  readonly offset: number;
}

/** A phrase: from its first note (its upbeat included) to the onset of its last harmony. */
export interface Phrase {
  readonly from: ScorePlace;
  /** Onset of the last harmony. */
  readonly to: ScorePlace;
  /** Where the next phrase begins, or the piece ends. */
  readonly untilTick: number;
}

/** How a returning section differs from the first of its letter; `leaves`: from there on it goes its own way. */
export type ChangeKind = 'opening' | 'close' | 'middle' | 'throughout' | 'rightHand' | 'leftHand' | 'transposed' | 'leaves' | 'shorter' | 'longer';

/** One difference of a return, with the bars of the return that it lies in. */
export interface Change {
  readonly kind: ChangeKind;
  readonly fromBar: number;
  readonly toBar: number;
  /** Semitones up for `transposed`, bars for `shorter` and `longer`; for a hand 1 where it adds notes, -1 where it leaves some out; otherwise 0. */
  readonly amount: number;
}

/** What a section is for. */
export type SectionRole = 'introduction' | 'section' | 'coda';

/** A section of the form. */
export interface Section {
  /** Place in `Form.sections`. */
  readonly index: number;
  readonly role: SectionRole;
  /** "A", "B" …; "" for an introduction or a coda. */
  readonly letter: string;
  /** "A", "A'", or "A4" where a letter has more than three versions; "introduction", "coda". */
  readonly name: string;
  /** 0 the first time or in an exact return; 1 for A', 2 for A'' … */
  readonly variant: number;
  readonly fromBar: number;
  readonly toBar: number;
  readonly fromTick: number;
  readonly toTick: number;
  /** Counted bars: an upbeat does not count, and of several endings only one does. */
  readonly lengthBars: number;
  /** The first section of its letter, or null where this is it. */
  readonly returnOf: number | null;
  /** Empty for a first statement and for an exact return. */
  readonly changes: readonly Change[];
}

/** The form of a piece. */
export interface Form {
  readonly phrases: readonly Phrase[];
  readonly sections: readonly Section[];
  /** Places in `sections` in playing order, repeats written out: A A B A' is [0, 0, 1, 2]. */
  readonly played: readonly number[];
}
