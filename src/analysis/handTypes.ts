/** The records of what the hands have to do. Bars are places in `Score.bars`, first and last inclusive; ticks are written ticks. */
import type { OneHand } from './handLines.js';

/** Where something for a hand stands. */
export interface HandSpot {
  readonly fromBar: number;
  readonly toBar: number;
  readonly fromTick: number;
  readonly hand: OneHand | 'both';
  /** Places in `Score.notes` of the (first) notes it is about. */
  readonly notes: readonly number[];
}

/** What the hand has to do there. Intervals in semitones. */
export type HandFinding =
  /** Struck together and wider than the span asked for, still within a tenth; `helped` where the other hand could take a note. */
  | { readonly kind: 'stretch'; readonly semitones: number; readonly helped: boolean }
  /** Wider than an octave and within the span: only small hands mind. */
  | { readonly kind: 'smallHandStretch'; readonly semitones: number; readonly helped: boolean }
  /** Too wide to strike at once, or marked to be broken. */
  | { readonly kind: 'wideChord'; readonly semitones: number; readonly marked: boolean; readonly helped: boolean }
  /** Octaves in a row. */
  | { readonly kind: 'octaves'; readonly count: number; readonly perSecond: number }
  /** From one strike to the next; `seconds` at the tempo of `HandTempo`, onset to onset. */
  | { readonly kind: 'jump'; readonly semitones: number; readonly up: boolean; readonly ticks: number; readonly seconds: number; readonly rest: boolean }
  /** A hand strikes beyond a key that the other hand has down. */
  | { readonly kind: 'crossing'; readonly crossing: OneHand; readonly semitones: number }
  /** One key for both hands: struck together, or struck while the other hand should hold it. */
  | { readonly kind: 'sharedKey'; readonly how: 'together' | 'held' }
  /** The same note or chord again and again. */
  | { readonly kind: 'repeatedNotes'; readonly count: number; readonly perSecond: number; readonly chord: boolean }
  /** An ornament as it could be played at the tempo: note names in order. */
  | { readonly kind: 'ornament'; readonly sign: OrnamentSign; readonly names: readonly string[]; readonly goesOn: boolean; readonly fits: boolean }
  /** Quick even notes one after the other; `stepwise` for scales and their like, else broken chords. */
  | { readonly kind: 'fastRun'; readonly count: number; readonly perSecond: number; readonly ticks: number; readonly stepwise: boolean }
  /** A finger holds while others of its hand strike `moves` times; `above` where it holds above them all. */
  | { readonly kind: 'heldVoice'; readonly moves: number; readonly above: boolean }
  /** The hand has to move `moves` times within the bar, if it covers an octave at a time. */
  | { readonly kind: 'positionChange'; readonly moves: number };

/** Ornaments that can be written out. */
export type OrnamentSign = 'trill' | 'mordent' | 'invertedMordent' | 'turn' | 'invertedTurn' | 'delayedTurn' | 'appoggiatura';

/** One place and what a hand has to do there. */
export type HandPlace = HandSpot & HandFinding;

/** Names of what a hand has to do. */
export type HandKind = HandFinding['kind'];

/** Where a tempo comes from: a printed figure, a figure only in the file, the tempo word, or nothing at all. */
export type TempoSource = 'printed' | 'file' | 'word' | 'none';
