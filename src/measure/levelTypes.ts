import type { Measured } from '../base/index.js';
import type { Hand } from './hands.js';
import type { PhraseFacts } from './phraseTypes.js';
import type { Unspoken } from './unspoken.js';

export type { Unspoken } from './unspoken.js';

/** How loud one paired note was struck, on the recording's own scale. */
export interface NoteLevel {
  /** Place in `Alignment.pairs`. */
  readonly pair: number;
  /** As recorded, 1-127. */
  readonly velocity: number;
  /** Share of the recording's paired notes that were struck softer, ties half, 0-1. */
  readonly rank: number;
  /** Decibels under the hardest stroke, by the published mapping; an estimate, good for differences within one recording. */
  readonly levelDb: number;
  /** Velocity units over the louder of what surrounds it in its hand; see standingOut.ts. */
  readonly over: Measured<number>;
}

/** What one hand did in one bar. */
export interface HandLevel {
  readonly notes: number;
  /** Mean velocity, register taken off. */
  readonly velocity: number;
  /** The same as a share of the recording's notes struck softer, 0-1. */
  readonly rank: number;
  readonly levelDb: number;
}

/** Levels of one visit to one bar. */
export interface BarLevel {
  readonly right: Measured<HandLevel>;
  readonly left: Measured<HandLevel>;
  /** What both hands give together: energies added, decibels under the hardest single stroke. */
  readonly heardDb: Measured<number>;
  /** Velocity units of the tune over its accompaniment; see balance.ts. */
  readonly tuneOver: Measured<number>;
}

/** Levels of one beat, for a contour. */
export interface BeatLevel {
  /** Place in `Alignment.route`. */
  readonly stretch: number;
  /** Place in `Score.order`. */
  readonly visitIndex: number;
  /** Unfolded tick at which the beat begins. */
  readonly tick: number;
  /** First onset of the beat, seconds. */
  readonly startS: number;
  /** Mean velocity of the hand's notes, register taken off. */
  readonly right: Measured<number>;
  readonly left: Measured<number>;
  readonly heardDb: Measured<number>;
  readonly tuneOver: Measured<number>;
}

/** Where a mark of level was played, and what became of it. */
export interface PlayedMark {
  /** Null where it holds for both hands. */
  readonly hand: Hand | null;
  /** Place in `Alignment.route`. */
  readonly stretch: number;
  /** Place in `Score.order` of the bar it stands in. */
  readonly visitIndex: number;
  /** Unfolded tick. */
  readonly tick: number;
  /** When it was reached, seconds. */
  readonly startS: number;
}

/** A written change of level. */
export interface LevelChange extends PlayedMark {
  /** `sudden`: from one mark to the next; `reached`: by way of a hairpin; `subito`: against the hairpin before it. */
  readonly kind: 'sudden' | 'reached' | 'subito';
  /** The marks, as printed. */
  readonly from: string;
  readonly to: string;
  /** How many steps of ppp … fff lie between, at least 1 (a subito after a hairpin counts one). */
  readonly steps: number;
  /** True where louder is asked for. */
  readonly louder: boolean;
  /** Velocity units that the level went the way it was asked; negative the other way. */
  readonly made: number;
  /** The same against the beginning of the stretch under the mark before: a contrast that was led up to is there too. */
  readonly madeSinceMark: number;
  /** Standard error of `made`, velocity units. */
  readonly errorUnits: number;
  /** Bars compared before and after. */
  readonly barsCompared: readonly [before: number, after: number];
  /** True where the bars after the mark repeat those before it: an echo. */
  readonly echo: boolean;
  /** True where the soft pedal is down after the mark and was not before it. */
  readonly unaCorda: boolean;
}

/** A written crescendo or diminuendo. */
export interface HairpinPlayed extends PlayedMark {
  readonly kind: 'crescendo' | 'diminuendo';
  /** Unfolded tick of its end, exclusive. */
  readonly untilTick: number;
  /** Place in `Score.order` of the bar it ends in. */
  readonly untilVisit: number;
  /** Velocity units from its beginning to its end along the robust slope, as asked positive. */
  readonly made: number;
  /** Standard error of `made`, velocity units. */
  readonly errorUnits: number;
}

/** A written accent or sforzando. */
export interface AccentPlayed extends PlayedMark {
  readonly kind: 'accent' | 'sforzando';
  /** Places in `Score.notes`. */
  readonly notes: readonly number[];
  /** Velocity units over the middle of its neighbours in the hand. */
  readonly over: number;
}

/** The line that carries the tune for a while. */
export interface TuneSpan {
  /** Unfolded ticks, the end exclusive. */
  readonly fromTick: number;
  readonly toTick: number;
  readonly hand: Hand;
  /** `top`: the upper line of the hand; `bass`: its lower line. */
  readonly line: 'top' | 'bass';
  /** 0-1: how far it leads over the next best line. */
  readonly confidence: number;
}

/** A chord of the right hand with inner notes. */
export interface VoicedChord {
  /** Place in `Alignment.route`. */
  readonly stretch: number;
  /** Place in `Score.order`. */
  readonly visitIndex: number;
  readonly startS: number;
  /** Velocity units of the top over the mean of the others. */
  readonly topOver: number;
}

/** Tune against accompaniment over the whole recording. */
export interface Balance {
  readonly tune: readonly TuneSpan[];
  /** The player's own normal: median of tune over accompaniment by bar, velocity units. */
  readonly normal: Measured<number>;
  /** How far the tune stands out where it does so well: three quarters of the bars stay under it, velocity units. */
  readonly atBest: Measured<number>;
  /** True where both hands have tunes of their own in most bars. */
  readonly counterpoint: boolean;
  /** Scaled median absolute deviation of the bars from the normal, velocity units. */
  readonly scatter: Measured<number>;
  /** Chords of the right hand with three notes or more, in order of stretch and time. */
  readonly chords: readonly VoicedChord[];
  /** Median of their tops over the others, velocity units. */
  readonly topOverInner: Measured<number>;
}

/** The recording's own scale. */
export interface LevelScale {
  /** Velocities that a tenth and nine tenths of the notes stay under. */
  readonly soft: number;
  readonly loud: number;
  /** Velocity units by which the same player strikes notes further up: a semitone. */
  readonly registerTrend: number;
  /** Between the tenth and the ninetieth percentile of the bars' levels: how far the playing goes, velocity units. */
  readonly range: Measured<number>;
}

/** All that was measured of loud and soft. */
export interface LevelFacts {
  readonly scale: LevelScale;
  /** Parallel to `Alignment.pairs`. */
  readonly notes: readonly NoteLevel[];
  /** Parallel to `Measures.bars`. */
  readonly bars: readonly BarLevel[];
  /** In time order. */
  readonly beats: readonly BeatLevel[];
  readonly changes: readonly LevelChange[];
  readonly hairpins: readonly HairpinPlayed[];
  readonly accents: readonly AccentPlayed[];
  readonly unspoken: readonly Unspoken[];
  readonly phrases: PhraseFacts;
  readonly balance: Balance;
}
