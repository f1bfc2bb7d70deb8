/**
 * The margin of a review: what is worth saying, what goes well, what else was seen, and what the teacher decided to
 * leave. Every remark knows its bars and notes, so that touching it lights them.
 */
import { listInWords, sentenceCase, type Language } from '../base/index.js';
import { firstPlace, placesInWords, type FoundPlace, type Praise } from '../judge/index.js';
import { purposeInWords, purposeName, PURPOSES, type PurposeFound, type Remark, type Review } from '../review/index.js';
import type { Score } from '../score/index.js';
import { asDecisions, type StoredDecision } from '../store/index.js';
import { asksInWords } from './asks.js';
import { whyView, type WhyView } from './whyView.js';

/** A hidden field of a form. */
interface Field {
  readonly name: string;
  readonly value: string;
}

/** A remark as the margin shows it. */
export interface RemarkView {
  /** Its number on the score, or null for one that is not marked there. */
  readonly number: number | null;
  readonly text: string;
  readonly advice: string;
  readonly href: string;
  readonly barIndex: number;
  /** Every bar it is about, as places in `Score.bars`, apart by spaces. */
  readonly bars: string;
  /** Ids of the written notes it is about, apart by spaces. */
  readonly notes: string;
  /** What it rests on, one reason each. */
  readonly why: readonly WhyView[];
  /** What belongs to it and is not said by itself, sentence by sentence. */
  readonly along: readonly string[];
  /** The form that makes it a comment. */
  readonly write: readonly Field[];
  /** The form that leaves its kind alone for this pupil. */
  readonly leave: readonly Field[];
  /** The form that calls it right as played. */
  readonly right: readonly Field[];
}

/** Something that goes well. */
export interface PraiseView {
  readonly text: string;
  readonly href: string;
  readonly barIndex: number;
  readonly bars: string;
}

/** The whole margin. */
export interface MarginView {
  readonly purpose: { readonly text: string; readonly choices: readonly { readonly value: string; readonly name: string; readonly chosen: boolean }[] };
  /** What is asked of this pupil's reviews, in words; "" where all is as usual. */
  readonly asked: string;
  readonly worthSaying: readonly RemarkView[];
  readonly goingWell: readonly PraiseView[];
  readonly alsoSeen: readonly { readonly aspect: string; readonly where: string; readonly remarks: readonly RemarkView[] }[];
  /** Aspects that were not measured, and why. */
  readonly notMeasured: readonly string[];
  readonly decisions: readonly { readonly id: number; readonly text: string }[];
}

/** What a margin is made from. */
export interface MarginParts {
  readonly score: Score;
  readonly review: Review;
  readonly anchors: readonly string[];
  readonly language: Language;
  readonly decisions: readonly StoredDecision[];
  readonly newKey: () => string;
}

/** Builds the margin. */
export function marginView(parts: MarginParts): MarginView {
  const { review } = parts;
  return {
    purpose: purposeView(review.purpose),
    asked: asksInWords(asDecisions(parts.decisions).preferences, review.forParent),
    worthSaying: review.worthSaying.map((remark, i) => remarkView(parts, remark, i + 1)),
    goingWell: review.goingWell.map((praise) => praiseView(parts, praise)),
    alsoSeen: review.alsoSeen.map(({ aspect, remarks }) => ({
      aspect,
      where: placesInWords(parts, remarks.flatMap(({ places }) => places)),
      remarks: remarks.map((remark) => remarkView(parts, remark, null)),
    })),
    notMeasured: review.judgement.aspects.flatMap(({ aspect, concern }) => (concern.measured ? [] : [`${sentenceCase(aspect)}: ${concern.reason}`])),
    decisions: parts.decisions.flatMap((one) => decisionView(one)),
  };
}

/** What the recording is taken to be for, with every other choice. */
function purposeView(found: PurposeFound): MarginView['purpose'] {
  const choices = PURPOSES.map((value) => ({ value, name: purposeName(value), chosen: value === found.purpose }));
  return { text: purposeInWords(found), choices };
}

/** One remark with its forms. */
function remarkView(parts: MarginParts, remark: Remark, number: number | null): RemarkView {
  const first = firstPlace(remark.places);
  const { aspect, kind } = remark;
  const notes = notesOf(parts, remark.places);
  const bars = { from: String(first.fromBar), to: String(first.toBar) };
  return {
    number,
    text: remark.text,
    advice: remark.advice,
    href: hrefOf(parts, first),
    barIndex: first.fromBar,
    bars: barsOf(remark.places),
    // what a remark explains lights up with it
    notes: notesOf(parts, remark.observations.flatMap(({ places }) => places)).join(' '),
    // what rests on the same ground is explained once
    why: remark.observations.filter((one, i, all) => all.findIndex(({ aspect: of, kind: as }) => of === one.aspect && as === one.kind) === i).map((one) => whyView(one, parts.language)),
    along: remark.observations.slice(1).map(({ text }) => text),
    write: fields({ key: parts.newKey(), ...bars, text: `${remark.text} ${remark.advice}`.trim() }),
    leave: fields({ decision: 'left', aspect, kind }),
    right: fields({ decision: 'right', aspect, kind, hand: remark.hand ?? '', notes: notes.join(' '), places: remark.places.map(({ fromBar, toBar }) => `${fromBar}-${toBar}`).join(' ') }),
  };
}

/** One thing that goes well. */
function praiseView(parts: MarginParts, { text, places }: Praise): PraiseView {
  const first = firstPlace(places);
  return { text, href: hrefOf(parts, first), barIndex: first.fromBar, bars: barsOf(places) };
}

/** A decision that holds here, in words. */
function decisionView({ id, ...decision }: StoredDecision): MarginView['decisions'] {
  if (decision.kind === 'left') return [{ id, text: `Remarks of this kind are left alone: ${decision.value.aspect}, ${spaced(decision.value.kind)}` }];
  if (decision.kind === 'right') return [{ id, text: `Right as played: ${decision.value.aspect}${decision.value.hand === null ? '' : `, ${decision.value.hand} hand`}${inBars(decision.value.bars)}` }];
  return [];
}

/** " in bars 5–8 and 12"; nothing for the whole piece. */
function inBars(stretches: readonly (readonly [string, string])[] | null): string {
  if (stretches === null) return '';
  const texts = stretches.map(([first, last]) => (first === last ? first : `${first}–${last}`));
  return ` in ${texts.length === 1 && texts[0]?.includes('–') !== true ? 'bar' : 'bars'} ${listInWords([...new Set(texts)])}`;
}

/** The name of a kind as words: "lateLeft" is "late left". */
function spaced(kind: string): string {
  return kind.replace(/([a-z])([A-Z])/g, (_, before: string, after: string) => `${before} ${after.toLowerCase()}`);
}

/** Ids of the written notes of all places. */
function notesOf({ score }: MarginParts, places: readonly FoundPlace[]): readonly string[] {
  return [...new Set(places.flatMap(({ notes }) => notes))].flatMap((index) => score.notes[index]?.id ?? []);
}

/** All bars of all places. */
function barsOf(places: readonly FoundPlace[]): string {
  const bars = places.flatMap(({ fromBar, toBar }) => Array.from({ length: toBar - fromBar + 1 }, (_, i) => fromBar + i));
  return [...new Set(bars)].join(' ');
}

/** Address of a place on the page. */
function hrefOf({ anchors }: MarginParts, { fromBar }: FoundPlace): string {
  return `#${anchors[fromBar] ?? 'score'}`;
}

/** Fields of a form; empty ones are left out. */
function fields(values: Readonly<Record<string, string>>): readonly Field[] {
  return Object.entries(values).filter(([, value]) => value !== '').map(([name, value]) => ({ name, value }));
}
