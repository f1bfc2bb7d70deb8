/** The review as it goes out as JSON: printed bar numbers as text, seconds to four decimals. */
import { fourDecimals, measured, type Measured } from '../base/index.js';
import { ASPECTS, firstPlace, type Aspect, type AspectJudgement, type Evidence, type FoundPlace, type JudgeInput, type Observation, type Praise } from '../judge/index.js';
import { makeReview } from './makeReview.js';
import { reportedHolding } from './reportedHolding.js';
import { reportedPhrases, toTenths, type ReportedPhrases } from './reportedPhrases.js';
import { pulseOf } from './reportPulse.js';
import type { PurposeFound, Remark, ReviewOptions } from './types.js';
import type { BarFacts, BarPedal, BarHolding, BarPulse, BarLevel, BarRhythm, LevelFacts } from '../measure/index.js';
import { reportedRhythm } from './barRhythm.js';
import type { Score } from '../score/index.js';

/** First and last printed bar number. */
type Bars = readonly [first: string, last: string];

/** A place as files name it. */
interface ReportedPlace {
  readonly bars: Bars;
  readonly pass: number;
  readonly attempt: number;
}

/** An observation as files name it. */
interface ReportedObservation extends ReportedPlace {
  readonly aspect: Aspect;
  readonly kind: string;
  readonly hand: 'right' | 'left' | 'both';
  readonly weight: number;
  readonly confidence: number;
  readonly measured: Evidence;
  /** Ids in the score file. */
  readonly notes: readonly string[];
  readonly text: string;
  readonly places: readonly ReportedPlace[];
}

/** A remark as files name it: places in `observations` of what it is made of. */
interface ReportedRemark {
  readonly aspect: Aspect;
  readonly worth: number;
  readonly text: string;
  readonly observations: readonly number[];
}

/** Praise as files name it. */
interface ReportedPraise {
  readonly aspect: Aspect;
  readonly hand: 'right' | 'left' | 'both';
  readonly bars: Bars;
  readonly text: string;
  readonly places: readonly ReportedPlace[];
}

/** An aspect as files name it. */
type ReportedAspect =
  | { readonly measured: true; readonly concern: number; readonly summary: string }
  | { readonly measured: false; readonly reason: string };

/** What `review --json` says. */
export interface ReviewReport {
  readonly format: 'barwise-review/1';
  readonly route: readonly (ReportedPlace & { readonly startS: number; readonly endS: number })[];
  readonly bars: readonly (Omit<BarFacts, 'visitIndex' | 'barIndex' | 'number'> & { readonly bar: string; readonly levels: Measured<BarLevel>; readonly pulse: BarPulse; readonly rhythm: BarRhythm; readonly holding: BarHolding; readonly pedal: BarPedal })[];
  readonly phrases: Measured<ReportedPhrases>;
  readonly observations: readonly ReportedObservation[];
  readonly aspects: Readonly<Partial<Record<Aspect, ReportedAspect>>>;
  readonly purpose: PurposeFound;
  readonly limits: readonly string[];
  /** True where the one remark is written for the parent of a child. */
  readonly forParent: boolean;
  /** The weightiest remark first. */
  readonly worthSaying: readonly ReportedRemark[];
  /** What was chosen from `praise`. */
  readonly goingWell: readonly ReportedPraise[];
  /** Everything else that was seen, in the order in which it is folded away. */
  readonly alsoSeen: readonly ReportedRemark[];
  /** All that was earned, whether it is said or not. */
  readonly praise: readonly ReportedPraise[];
}

/** Why an aspect that nobody judges yet has no value. */
const NOT_JUDGED = 'the program does not judge it yet';

/** The report of a review. */
export function reviewReport(input: JudgeInput, options: ReviewOptions = {}): ReviewReport {
  const { score, alignment, measures } = input;
  const { purpose, limits, forParent, worthSaying, goingWell, alsoSeen, judgement: { aspects, observations, praise } } = makeReview(input, options);
  const remark = (one: Remark): ReportedRemark => ({ aspect: one.aspect, worth: fourDecimals(one.worth), text: `${one.text} ${one.advice}`.trim(), observations: one.observations.map((each) => observations.indexOf(each)) });
  return {
    format: 'barwise-review/1',
    route: alignment.route.map(({ fromVisit, toVisit, attempt, startS, endS }) => ({
      bars: [barOfVisit(score, fromVisit), barOfVisit(score, toVisit)], pass: score.order[fromVisit]?.pass ?? 1, attempt, startS: fourDecimals(startS), endS: fourDecimals(endS),
    })),
    bars: measures.bars.map((facts, i) => ({ ...barOf(facts), levels: levelsOf(measures.levels, i), pulse: pulseOf(measures.pulse, i), rhythm: reportedRhythm(measures.rhythm.bars, i), holding: reportedHolding(measures.holding.bars, i), pedal: pedalOf(measures.pedal.bars, i) })),
    phrases: reportedPhrases(score, measures.levels),
    observations: observations.map((one) => observationOf(score, one)),
    aspects: Object.fromEntries(ASPECTS.map((aspect) => [aspect, aspectOf(aspects.find((one) => one.aspect === aspect))])),
    purpose,
    limits,
    forParent,
    worthSaying: worthSaying.map(remark),
    goingWell: goingWell.map((one) => praiseOf(score, one)),
    alsoSeen: alsoSeen.flatMap(({ remarks }) => remarks.map(remark)),
    praise: praise.map((one) => praiseOf(score, one)),
  };
}

/** The facts of one visit to a bar. */
function barOf(facts: BarFacts): Omit<ReviewReport['bars'][number], 'levels' | 'pulse' | 'rhythm' | 'holding' | 'pedal'> {
  const { number, pass, attempt, stretch, startS, endS, played, wrong, missed, added, tempo, right, left } = facts;
  return { bar: number, pass, attempt, stretch, startS: fourDecimals(startS), endS: fourDecimals(endS), played, wrong, missed, added, tempo, right, left };
}

/** The pedal in one visit. */
function pedalOf(bars: readonly BarPedal[], place: number): BarPedal {
  const bar = bars[place];
  if (bar === undefined) throw new RangeError(`no pedal of visit ${place}`);
  return { downShare: fourDecimals(bar.downShare), blur: fourDecimals(bar.blur) };
}

/** Levels of one visit, velocity units and decibels to a tenth, ranks to a hundredth. */
function levelsOf(levels: Measured<LevelFacts>, place: number): Measured<BarLevel> {
  if (!levels.measured) return levels;
  const bar = levels.value.bars[place];
  if (bar === undefined) throw new RangeError(`no levels of visit ${place}`);
  const hand = (one: BarLevel['right']): BarLevel['right'] => (one.measured ? measured({ notes: one.value.notes, velocity: toTenths(one.value.velocity), rank: Math.round(one.value.rank * 100) / 100, levelDb: toTenths(one.value.levelDb) }) : one);
  const number = (one: Measured<number>): Measured<number> => (one.measured ? measured(toTenths(one.value)) : one);
  return measured({ right: hand(bar.right), left: hand(bar.left), heardDb: number(bar.heardDb), tuneOver: number(bar.tuneOver) });
}

/** Printed number of a visited bar. */
function barOfVisit(score: Score, visit: number): string {
  return numberOf(score, score.order[visit]?.barIndex ?? -1);
}

/** Printed number of a bar. */
function numberOf(score: Score, barIndex: number): string {
  return score.bars[barIndex]?.number ?? '';
}

/** An observation; its own bars, pass and attempt are those of its first place. */
function observationOf(score: Score, { aspect, kind, hand, places, measured, weight, confidence, text, advice }: Observation): ReportedObservation {
  const notes = [...new Set(places.flatMap((place) => place.notes))].map((index) => score.notes[index]?.id ?? '');
  const named = places.map((place) => placeOf(score, place));
  const first = named[0] ?? { bars: ['', ''], pass: 1, attempt: 1 };
  return { aspect, kind, hand: hand ?? 'both', ...first, weight: fourDecimals(weight), confidence: fourDecimals(confidence), measured: { ...measured, value: fourDecimals(measured.value) }, notes, text: `${text} ${advice}`.trim(), places: named };
}

/** Praise; its bars are those of its first place. */
function praiseOf(score: Score, { aspect, hand, places, text }: Praise): ReportedPraise {
  return { aspect, hand: hand ?? 'both', bars: placeOf(score, firstPlace(places)).bars, text, places: places.map((place) => placeOf(score, place)) };
}

/** A place by its printed numbers. */
function placeOf(score: Score, { fromBar, toBar, pass, attempt }: FoundPlace): ReportedPlace {
  return { bars: [numberOf(score, fromBar), numberOf(score, toBar)], pass, attempt };
}

/** What is said of an aspect. */
function aspectOf(judged: AspectJudgement | undefined): ReportedAspect {
  if (judged === undefined) return { measured: false, reason: NOT_JUDGED };
  const { concern, summary } = judged;
  return concern.measured ? { measured: true, concern: fourDecimals(concern.value), summary } : concern;
}
