/** The records of pitfalls: places in a score that are likely to go wrong. */
import type { Language } from '../base/index.js';
import type { HarmonyAnalysis } from '../harmony/index.js';
import type { BeatPlace, Counting } from './beatTypes.js';
import type { HandPlace } from './handTypes.js';
import type { HandLines, OneHand } from './handLines.js';
import type { Score } from '../score/index.js';

/** What trips. */
export type PitfallKind =
  | 'entryAfterRest' | 'afterBeats' | 'emptyFirstBeat' | 'tieAcross' | 'syncopation' | 'metreChange' | 'crossRhythm' | 'dotsAgainstTriplets'
  | 'hemiola' | 'longRest' | 'divisionChange' | 'dottedPairs'
  | 'stretch' | 'smallHandStretch' | 'wideChord' | 'octaves' | 'jump' | 'crossing' | 'sharedKey' | 'repeatedNotes' | 'ornament' | 'fastRun' | 'positionChange' | 'heldVoice'
  | 'accidentalHolds' | 'accidentalLapses' | 'signatureChange' | 'signatureSlip' | 'changedReturn' | 'twoTouches' | 'backInTime' | 'closingRitardando' | 'bassToCatch';

/** One of the places of a pitfall. */
export interface PitfallPlace {
  /** Printed numbers of its first and last bar. */
  readonly bars: readonly [first: string, last: string];
  /** The same bars as places in `Score.bars`; printed numbers need not be unique. */
  readonly fromBar: number;
  readonly toBar: number;
}

/** Something that is likely to trip a pupil, wherever it occurs in the piece. */
export interface Pitfall {
  readonly kind: PitfallKind;
  readonly hand: OneHand | 'both';
  /** The bars of its first place. */
  readonly bars: readonly [first: string, last: string];
  /** In order of the score, at least one. */
  readonly places: readonly PitfallPlace[];
  /** 0-1: how likely it trips a pupil and how much that matters; it ranks. */
  readonly weight: number;
  /** What will happen, one sentence. */
  readonly sentence: string;
  /** What to do about it, one sentence. */
  readonly practise: string;
  /** How to count one of its bars, or null. */
  readonly counting: Counting | null;
}

/** A pitfall before it is weighed. */
export interface PitfallDraft {
  readonly kind: PitfallKind;
  readonly hand: OneHand | 'both';
  /** Bars that it occurs in, in any order. */
  readonly spots: readonly { readonly fromBar: number; readonly toBar: number }[];
  /** 0-1: how bad it is of its kind. */
  readonly severity: number;
  readonly sentence: string;
  readonly practise: string;
  readonly counting?: Counting | null;
}

/** Everything that pitfalls are found in. */
export interface PitfallGround {
  readonly score: Score;
  readonly lines: HandLines;
  readonly beats: readonly BeatPlace[];
  readonly hands: readonly HandPlace[];
  readonly harmony: HarmonyAnalysis | null;
  readonly language: Language;
}
