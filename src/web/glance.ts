/**
 * A review at a glance: what the desk needs to know of it, small enough to be kept for every recording. Bars are
 * places in `Score.bars`; texts are British and are said in the room's language where they are shown.
 */
import { neighbouring } from '../judge/index.js';
import type { Reading } from '../pipeline/index.js';
import { figuresOf, type WeekFigures } from '../progress/index.js';
import { tempoOf, type Review, type Remark } from '../review/index.js';
import { barNames, type Score } from '../score/index.js';

/** A stretch of bars, both ends included. */
export type BarRange = readonly [from: number, to: number];

/** One remark of a review, as far as it matters next week. */
export interface GlanceRemark {
  readonly aspect: string;
  readonly kind: string;
  /** "" where it is not about one hand. */
  readonly hand: string;
  readonly bars: readonly BarRange[];
  /** True where it is among the few things worth saying. */
  readonly worth: boolean;
  /** Sentence and advice; "" for what is not worth saying. */
  readonly text: string;
}

/** Numbers that mean something over the weeks. */
export interface GlanceFigures extends WeekFigures {
  /** Tempo in the unit of the marking, beats a minute; null where it was not measured. */
  readonly tempo: number | null;
  /** True for practice, which is no tempo reached. */
  readonly practice: boolean;
}

/** What is kept of one review. */
export interface Glance {
  readonly remarks: readonly GlanceRemark[];
  readonly praise: readonly string[];
  /** Bars that were played. */
  readonly played: readonly BarRange[];
  /** How many bars the score has. */
  readonly bars: number;
  /** Printed numbers of the bars that remarks are about, by their place. */
  readonly names: Readonly<Record<string, string>>;
  /** What is followed over the weeks. */
  readonly figures: GlanceFigures;
  /** Why nothing could be found out, as a sentence; "" where it could. */
  readonly problem: string;
}

/** A glance at a recording that could not be read. */
export function noGlance(problem: string): Glance {
  return { remarks: [], praise: [], played: [], bars: 0, names: {}, figures: { stops: 0, blurs: 0, tempo: null, practice: false }, problem };
}

/** What is kept of a review. */
export function glanceOf(review: Review, { score, measures }: Pick<Reading, 'score' | 'measures'>): Glance {
  const remarks = [...review.worthSaying.map((remark) => kept(remark, true)), ...review.alsoSeen.flatMap((group) => group.remarks.map((remark) => kept(remark, false)))];
  const said = barNames(score);
  const named = [...new Set(remarks.flatMap((remark) => remark.bars.flatMap(barsOf)))];
  return {
    remarks,
    praise: review.goingWell.map(({ text }) => text),
    played: rangesOf(measures.bars.flatMap((bar) => (bar.played > 0 ? [bar.barIndex] : []))),
    bars: score.bars.length,
    names: Object.fromEntries(named.map((bar) => [String(bar), said.short(bar) || said.long(bar)])),
    figures: { ...figuresOf(review.judgement), tempo: tempoReached(score, measures), practice: PRACTICE.has(review.purpose.purpose) },
    problem: '',
  };
}

/** Purposes under which a piece is not played through. */
const PRACTICE: ReadonlySet<string> = new Set(['firstReading', 'buildingUp']);

/** Tempo in the unit of the marking. */
function tempoReached(score: Score, measures: Reading['measures']): number | null {
  const { played } = tempoOf(score, measures);
  return played.measured ? Math.round(played.value) : null;
}

/** One remark. */
function kept({ observations, aspect, hand, places, text, advice }: Remark, worth: boolean): GlanceRemark {
  return {
    aspect,
    kind: observations[0]?.kind ?? '',
    hand: hand ?? '',
    bars: rangesOf(places.flatMap(({ fromBar, toBar }) => barsOf([fromBar, toBar]))),
    worth,
    text: worth ? `${text} ${advice}`.trim() : '',
  };
}

/** Every bar of a stretch. */
export function barsOf([from, to]: BarRange): readonly number[] {
  return Array.from({ length: to - from + 1 }, (_, i) => from + i);
}

/** Bars as stretches, in the order of the score, each bar once. */
export function rangesOf(bars: readonly number[]): readonly BarRange[] {
  return neighbouring(bars.map((bar) => ({ fromBar: bar, toBar: bar }))).map(({ fromBar, toBar }) => [fromBar, toBar]);
}

/** A glance as it is kept. */
export function writeGlance(glance: Glance): string {
  return JSON.stringify(glance);
}

/** A glance that was kept; null where it is none that this program writes. */
export function readGlance(json: string): Glance | null {
  const kept: unknown = JSON.parse(json);
  return isGlance(kept) ? kept : null;
}

/** True for the shape that `writeGlance` gives; the fields of its remarks are as they were written. */
function isGlance(kept: unknown): kept is Glance {
  if (typeof kept !== 'object' || kept === null) return false;
  return 'remarks' in kept && Array.isArray(kept.remarks) && 'praise' in kept && Array.isArray(kept.praise)
    && 'played' in kept && Array.isArray(kept.played) && 'bars' in kept && typeof kept.bars === 'number' && 'names' in kept && typeof kept.names === 'object' && 'figures' in kept && 'problem' in kept && typeof kept.problem === 'string';
}
