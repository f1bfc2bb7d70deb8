/** The records of rhythm: onsets against one another and against what is written. Places of notes are places in `Alignment.pairs`. */
import type { Measured } from '../base/index.js';
import type { Hand } from './hands.js';

/** One moment of one voice: a note or chord that is written, and when it was struck. */
export interface LineMoment {
  /** Unfolded ticks. */
  readonly tick: number;
  /** When the first of its notes ends as written, ticks; exclusive. */
  readonly endTick: number;
  /** Place in `Score.order`. */
  readonly visitIndex: number;
  /** Seconds, the median of the chord; null where nothing of it was played or it stands at no written moment (ornament, roll, grace notes before it). */
  readonly onsetS: number | null;
  readonly pairs: readonly number[];
}

/** The moments of one voice in one stretch of the route, in order of ticks. */
export interface VoiceLine {
  readonly stretch: number;
  readonly hand: Hand;
  readonly moments: readonly LineMoment[];
}

/**
 * What a group of notes is on paper, by the distances of its onsets: `even` two alike, `dotted` 3 : 1, `doubleDotted` 7 : 1,
 * `longShort` 2 : 1, `snap` 1 : 3, `three` three alike.
 */
export type FigureKind = 'even' | 'dotted' | 'doubleDotted' | 'longShort' | 'snap' | 'three';

/** A group of two or three notes and how its time was shared out. */
export interface RhythmFigure {
  readonly kind: FigureKind;
  readonly stretch: number;
  readonly visitIndex: number;
  readonly hand: Hand;
  /** Unfolded ticks of the first note, and of what comes after the last. */
  readonly fromTick: number;
  readonly toTick: number;
  readonly pairs: readonly number[];
  /** Share of the whole time that each note but the last took, 0-1; 0.75 for a dotted note as written. */
  readonly shares: readonly number[];
  /** How long the whole group took, seconds. */
  readonly spanS: number;
  /** That, by what the tempo before and after it would give; null where too little is played around it. */
  readonly spanTimes: number | null;
  /** How the other notes divide the same time: 2 or 4 evenly, 3 in triplets, 0 in no plain way or not at all. */
  readonly against: 0 | 2 | 3 | 4;
}

/** One moment at which both hands strike. */
export interface HandsMoment {
  readonly stretch: number;
  readonly visitIndex: number;
  readonly tick: number;
  /** Left minus right, ms: positive where the left hand is behind. */
  readonly leftLateMs: number;
  /** How far that is of the way from the first of the two hands to its next stroke: 0.5 where the hands strike in turn; null where it strikes no more. */
  readonly ofStep: number | null;
}

/** How far the hands were apart in one visit to a bar. */
export interface HandsApart {
  /** Moments at which both strike. */
  readonly moments: number;
  /** Median of left minus right, ms: positive where the left hand is behind. */
  readonly medianMs: number;
  /** Spread: scaled median absolute deviation, ms. */
  readonly scatterMs: number;
}

/** A chord of one hand that is written to be struck together. */
export interface ChordSpread {
  readonly stretch: number;
  readonly visitIndex: number;
  readonly hand: Hand;
  readonly tick: number;
  readonly pairs: readonly number[];
  /** From its first to its last note, ms. */
  readonly spreadMs: number;
  /** True where the notes come one after another from the bottom up: it was rolled. */
  readonly rolled: boolean;
}

/** A run of equal notes of one voice. */
export interface EvenRun {
  readonly stretch: number;
  readonly hand: Hand;
  readonly fromVisit: number;
  /** Inclusive. */
  readonly toVisit: number;
  readonly fromTick: number;
  readonly toTick: number;
  readonly pairs: readonly number[];
  /** Middle distance from onset to onset, ms. */
  readonly intervalMs: number;
  /** Spread of the distances about the tempo of the run, as a share of their mean (coefficient of variation), 0 upwards. */
  readonly variation: number;
  /** The same without a long-short lilt and without the distance that stands off most: what the fingers leave uneven, be there a limp or a wait. */
  readonly variationButLilt: number;
  /** Share of every pair of notes that the first took, middle of the run: 0.5 even, more for long-short. */
  readonly lilt: number;
}

/** One written distance from onset to onset that holds a beat or more, and how many beats it was given. */
export interface LongDistance {
  readonly stretch: number;
  readonly visitIndex: number;
  readonly hand: Hand;
  readonly fromTick: number;
  readonly toTick: number;
  readonly pairs: readonly number[];
  /** Beats as written. */
  readonly writtenBeats: number;
  /** Beats it was given, by the tempo just before and after. */
  readonly playedBeats: number;
  /** How many beats later than the other hand's count this hand came to its end, beyond what it was off at its beginning; null where the other hand does not count along. */
  readonly lateBeats: number | null;
  /** By how much the tempo before and the one after it differ: slower by quicker, 1 upwards. */
  readonly tempoTimes: number;
  /** True where a rest fills some of it. */
  readonly rest: boolean;
  /** True where the other hand strikes within it. */
  readonly filled: boolean;
}

/** One step from an onset to the next, of whichever hand, a beat or more and less than two, or the whole upbeat: how long it was against the tempo all around. */
export interface BeatStep {
  readonly stretch: number;
  readonly visitIndex: number;
  /** The hand that begins it, null where both do. */
  readonly hand: Hand | null;
  readonly fromTick: number;
  readonly toTick: number;
  /** The notes that begin it. */
  readonly pairs: readonly number[];
  /** True for the way from the first onset of an upbeat to the first full bar. */
  readonly upbeat: boolean;
  /** Time it took by the time that the tempo of two bars around gives it: 0.5 halved, 2 doubled. */
  readonly times: number;
}

/** The grace notes before one note, as they were played. */
export interface GraceGroup {
  readonly stretch: number;
  readonly visitIndex: number;
  readonly hand: Hand;
  readonly tick: number;
  /** Small notes and the note they lead to. */
  readonly pairs: readonly number[];
  /** Small notes that were played. */
  readonly count: number;
  /** True where all of them have a stroke: to be crushed. */
  readonly slash: boolean;
  /** From the first small note to the written one, ms. */
  readonly leadMs: number;
  /** From the first small note to the other hand's note at this tick, ms: positive before the beat; null where it strikes none. */
  readonly beforeMs: number | null;
}

/** One stroke of a hand that is written between two of the other hand. */
export interface CrossStroke {
  /** Share of the way from the stroke before to the one after, as written, between 0 and 1. */
  readonly written: number;
  /** The same as it was played; below 0 or above 1 where it came before the one or after the other. */
  readonly played: number;
  /** How long that way was, seconds. */
  readonly wayS: number;
}

/** What one hand played in a crossing. */
export interface CrossHand {
  /** Its strokes as shares of the whole time, from 0: 0, 1/3 and 2/3 for three as written. */
  readonly places: readonly number[];
  /** Those that fall between two of the other hand. */
  readonly strokes: readonly CrossStroke[];
  readonly pairs: readonly number[];
}

/** A stretch of time that the hands divide differently. */
export interface CrossRhythm {
  readonly stretch: number;
  readonly visitIndex: number;
  readonly fromTick: number;
  /** Exclusive. */
  readonly toTick: number;
  /** Into how many equal parts each hand divides it: right, then left. */
  readonly ratio: readonly [right: number, left: number];
  readonly right: CrossHand;
  readonly left: CrossHand;
}

/** The strokes of one trill or turn, those that should be alike. */
export interface OrnamentStrokes {
  readonly kind: 'trill' | 'turn';
  readonly stretch: number;
  readonly visitIndex: number;
  readonly hand: Hand;
  /** The ornamented note. */
  readonly pairs: readonly number[];
  /** How many strokes were held against one another. */
  readonly strokes: number;
  /** Middle distance from stroke to stroke, ms. */
  readonly intervalMs: number;
  /** Spread of the distances about their own straight line, as a share of their mean, 0 upwards. */
  readonly variation: number;
  /** The same without what a weaker finger does every second time and without the one distance that stands off most; of a turn the same as `variation`. */
  readonly variationButLilt: number;
  /** The longest distance by the middle one, 1 upwards. */
  readonly longestTimes: number;
}

/** Onsets of one hand on one part of the bar. */
export interface BeatTiming {
  /** Which beat, from 1. */
  readonly beat: number;
  /** True for notes on the beat itself, false for those within it. */
  readonly on: boolean;
  readonly notes: number;
  /** Median deviation from the local pulse, ms, late positive. */
  readonly medianMs: number;
}

/** Rhythm in one visit to a bar. */
export interface BarRhythm {
  /** How far the hands were apart. */
  readonly apart: Measured<HandsApart>;
  /** How far the steps of a beat or so were from the tempo around, on average, as a ratio: 1 none, 1.41 half as long again or two thirds. */
  readonly steps: Measured<number>;
  readonly right: readonly BeatTiming[];
  readonly left: readonly BeatTiming[];
}

/** All that was measured of rhythm. */
export interface RhythmFacts {
  /** One entry a visit to a bar, as `Measures.bars`. */
  readonly bars: readonly BarRhythm[];
  readonly figures: readonly RhythmFigure[];
  readonly hands: readonly HandsMoment[];
  readonly chords: readonly ChordSpread[];
  readonly runs: readonly EvenRun[];
  readonly distances: readonly LongDistance[];
  readonly steps: readonly BeatStep[];
  readonly graces: readonly GraceGroup[];
  readonly ornaments: readonly OrnamentStrokes[];
  readonly crossings: readonly CrossRhythm[];
}
