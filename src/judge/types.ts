/** The records of judgement: what the measures say, held against what teachers call a fault. Bars are places in `Score.bars`. */
import type { Alignment } from '../align/index.js';
import type { Analysis } from '../analysis/index.js';
import type { Language, Measured } from '../base/index.js';
import type { Hand, Measures } from '../measure/index.js';
import type { Recording } from '../recording/index.js';
import type { Score } from '../score/index.js';

/** What a remark is about. */
export type Aspect = 'notes' | 'route' | 'rhythm' | 'pulse' | 'tempo' | 'lengths' | 'touch' | 'pedal' | 'dynamics' | 'balance';

/** Everything that judgement is made from. */
export interface JudgeInput {
  readonly score: Score;
  readonly recording: Recording;
  readonly alignment: Alignment;
  readonly analysis: Analysis;
  readonly measures: Measures;
  readonly language: Language;
  /** What the teacher decided for this pupil and piece; nothing where left out. */
  readonly decisions?: Decisions;
}

/** Where something was found: as short a stretch of bars as it is. */
export interface FoundPlace {
  readonly fromBar: number;
  /** Inclusive. */
  readonly toBar: number;
  /** Which time through the written bars, from 1. */
  readonly pass: number;
  /** Which try at them, from 1. */
  readonly attempt: number;
  /** Written notes it is seen at: places in `Score.notes`; empty where it belongs to no single note. */
  readonly notes: readonly number[];
  /** When it happened, seconds from the start of the recording. */
  readonly startS: number;
}

/** A place of an observation, with how much it weighs there. */
export interface ObservedPlace extends FoundPlace {
  /** 0-1: severity times confidence at this place. */
  readonly weight: number;
}

/** A measured value beside the threshold from which it counts. */
export interface Evidence {
  readonly value: number;
  /** "ms", "%", "s", "times", "notes" …: as it is put behind the value. */
  readonly unit: string;
  readonly threshold: number;
}

/** One thing found at one place, before like things are put together. */
export interface Finding {
  readonly aspect: Aspect;
  /** What it is, one name a kind of fault within its aspect: "hesitation". */
  readonly kind: string;
  /** Null where it is not about one hand. */
  readonly hand: Hand | null;
  readonly place: FoundPlace;
  readonly measured: Evidence;
  /** 0-1: how bad it is of its kind; see `severityOf`. */
  readonly severity: number;
  /** 0-1: how sure the program is that it happened and is no expression. */
  readonly confidence: number;
  /** Findings of one kind and hand with different topics are told apart ("dotted played equal" of two different figures); "" where there is one. */
  readonly topic: string;
}

/** One thing that the program measured and thinks worth a look, wherever it happened. */
export interface Observation {
  readonly aspect: Aspect;
  readonly kind: string;
  readonly hand: Hand | null;
  readonly topic: string;
  /** In order of time, at least one. */
  readonly places: readonly ObservedPlace[];
  /** The heaviest place's. */
  readonly measured: Evidence;
  /** 0-1: how much a teacher would care; it ranks. */
  readonly weight: number;
  /** 0-1. */
  readonly confidence: number;
  /** One sentence: where, and what was heard. */
  readonly text: string;
  /** One or two sentences on what to do about it; "" where that goes without saying. */
  readonly advice: string;
}

/** The sentences of an observation. */
export type Told = Pick<Observation, 'text' | 'advice'>;

/** Something that went well, and more than might be expected. */
export interface Praise {
  readonly aspect: Aspect;
  readonly hand: Hand | null;
  /** In order of time, at least one. */
  readonly places: readonly FoundPlace[];
  /** 0-1: how much it deserves to be said; it ranks. */
  readonly weight: number;
  readonly text: string;
}

/** What is said of one aspect of one recording. */
export interface AspectJudgement {
  readonly aspect: Aspect;
  /** 0-1: how much there is to say; orders recordings of one piece, and is no mark. */
  readonly concern: Measured<number>;
  /** One plain sentence; "" where the aspect was not measured. */
  readonly summary: string;
  /** Heaviest first. */
  readonly observations: readonly Observation[];
  /** What was earned, heaviest first; left out by judges that find none. */
  readonly praise?: readonly Praise[];
}

/** The judgement of a whole recording. */
export interface Judgement {
  /** One entry an aspect that is judged, in the order of `ASPECTS`. */
  readonly aspects: readonly AspectJudgement[];
  /** Of all aspects, heaviest first. */
  readonly observations: readonly Observation[];
  /** Of all aspects, heaviest first. */
  readonly praise: readonly Praise[];
}

/** Judges one aspect. */
export type AspectJudge = (input: JudgeInput) => AspectJudgement;

/** How strict to be on something: `lenient` asks twice as much before speaking, `strict` half as much again less. */
export type Strictness = 'lenient' | 'usual' | 'strict';

/** Something that is right as played, whatever the score says: another edition, a simplification, a choice. */
export interface RightAsPlayed {
  readonly aspect: Aspect;
  /** The kind of remark, or null for every kind of this aspect. */
  readonly kind: string | null;
  /** The hand it is about, or null for both. */
  readonly hand: Hand | null;
  /** Ids of written notes it is about; empty where it holds for whole bars. */
  readonly notes: readonly string[];
  /** First and last printed bar of every stretch it holds for, or null for the whole piece. */
  readonly bars: readonly (readonly [first: string, last: string])[] | null;
}

/** A kind of remark that is left alone for this pupil. */
export interface LeftAlone {
  readonly aspect: Aspect;
  readonly kind: string;
}

/** What to be strict on: an aspect, or ornaments, which are a matter of taste in any. */
export type StrictOn = Aspect | 'ornaments';

/** How strict to be, and what to look at this week. */
export interface Preferences {
  readonly strictness: Readonly<Partial<Record<StrictOn, Strictness>>>;
  /** Aspects to look at first; empty for all alike. */
  readonly lookAt: readonly Aspect[];
}

/** All that was decided for one pupil and piece. */
export interface Decisions {
  readonly rightAsPlayed: readonly RightAsPlayed[];
  readonly left: readonly LeftAlone[];
  readonly preferences: Preferences;
}
