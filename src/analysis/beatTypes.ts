/** The records of where the beat hides. Bars are places in `Score.bars`, first and last inclusive; ticks are written ticks. */
import type { TimeSignature } from '../score/index.js';
import type { OneHand } from './handLines.js';

/** A bar counted aloud. */
export interface Counting {
  readonly barIndex: number;
  /** Struck syllables between asterisks: "1 **2** & 3". */
  readonly line: string;
  /** Ticks of what a number counts, where that is less than the beat; else null. */
  readonly unitTicks: number | null;
}

/** Where something about the beat stands. */
export interface BeatSpot {
  readonly fromBar: number;
  readonly toBar: number;
  readonly fromTick: number;
  readonly hand: OneHand | 'both';
  /** How to count a bar of it; null where numbers and "&" cannot say it, or where every number is struck anyway. */
  readonly counting: Counting | null;
}

/** Divisions of a beat, as a rhythm reader names them; of a dotted beat `threes`, `duplet`, and `lilt` for dotted, short, plain. */
export type BeatDivision = 'even' | 'dotted' | 'triplet' | 'quarters' | 'duplet' | 'threes' | 'lilt' | 'other';

/** What hides the beat there. */
export type BeatFinding =
  /** A hand enters off the beat after a silence that covers the beat. `count` names the place ('the "&" of 2'); `opening` at the very start. */
  | { readonly kind: 'entryAfterRest'; readonly count: string; readonly otherOnBeat: boolean; readonly afterBeats: boolean; readonly opening: boolean }
  /** Neither hand strikes on the first beat: both rest there, or something is held over. */
  | { readonly kind: 'emptyFirstBeat'; readonly cause: 'rest' | 'held' }
  /** A tie over the bar line; `partial` where the same hand strikes other notes at the tie's end. */
  | { readonly kind: 'tieAcross'; readonly noteIndex: number; readonly partial: boolean; readonly struckOff: boolean }
  /** Notes held through stronger places than their own; `strength` by Longuet-Higgins & Lee 1984, the greatest. `tiesOnly`: each is begun on a beat and tied over a bar line. */
  | { readonly kind: 'syncopation'; readonly strength: number; readonly notes: number; readonly otherOnBeat: boolean; readonly tiesOnly: boolean }
  /** The time signature changes. `keeps` says which value goes on counting. */
  | { readonly kind: 'metreChange'; readonly from: TimeSignature; readonly to: TimeSignature; readonly beatChanges: boolean }
  /** One beat (or bar, or half bar) divided in two ways at once: [right, left]. */
  | { readonly kind: 'crossRhythm'; readonly ratio: readonly [right: number, left: number]; readonly spanTicks: number }
  /** A dotted pair against a triplet: the teacher's choice how to place the short note. */
  | { readonly kind: 'dotsAgainstTriplets' }
  /** Two bars of three as three groups of two, or a bar of two dotted beats as three. */
  | { readonly kind: 'hemiola'; readonly shape: 'acrossTwoBars' | 'withinBar' }
  /** A hand has nothing for whole bars. */
  | { readonly kind: 'longRest'; readonly bars: number; readonly otherPlays: boolean }
  /** The division of the beat changes from one beat to the next in one hand. */
  | { readonly kind: 'divisionChange'; readonly between: readonly [BeatDivision, BeatDivision] };

/** One place where the beat hides. */
export type BeatPlace = BeatSpot & BeatFinding;

/** Names of what hides a beat. */
export type BeatKind = BeatFinding['kind'];
