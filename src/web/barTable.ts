/**
 * The numbers of every bar and try, as one table. The chart in the browser is drawn from the same rows, so table
 * and chart cannot disagree.
 */
import { sentenceCase, word, type Language, type Measured } from '../base/index.js';
import type { BarFacts, HandTiming } from '../measure/index.js';
import { tryInWords } from '../judge/index.js';
import type { BarNames, BeatUnit } from '../score/index.js';
import type { VisitFigures } from './barColumns.js';

/** One try at one bar in the table of all bars; the chart is drawn from the same rows. */
export interface BarRow {
  readonly barIndex: number;
  /** "7", or "upbeat". */
  readonly bar: string;
  readonly href: string;
  /** "second try"; empty where the bar was played once; "not played". */
  readonly attempt: string;
  /** Which visit to this bar, from 0: the chart puts them beside each other. */
  readonly rank: number;
  /** Beats a minute, whole; null where not measured. */
  readonly tempo: number | null;
  /** Middle deviation of each hand, ms, late positive; null where not measured. */
  readonly right: number | null;
  readonly left: number | null;
  readonly played: number;
  readonly wrong: number;
  readonly missed: number;
  readonly added: number;
  /** Figures of the further columns, in their order; null where not measured. */
  readonly figures: readonly (number | null)[];
}

/** What the table is made from. */
export interface BarTableParts {
  readonly visits: ReadonlyMap<number, readonly BarFacts[]>;
  readonly names: BarNames;
  readonly anchors: readonly string[];
  readonly unit: BeatUnit;
  readonly figures: VisitFigures;
}

/**
 * All tries at all bars, in the order of the bars; a bar that was not played has one row that
 * says so.
 */
export function barRows(parts: BarTableParts): readonly BarRow[] {
  return parts.anchors.flatMap((_, barIndex) => {
    const all = parts.visits.get(barIndex) ?? [];
    return all.length === 0 ? [unplayedRow(parts, barIndex)] : all.map((facts, rank) => barRow(parts, facts, { all, rank }));
  });
}

/** A bar that was not played. */
function unplayedRow({ names, anchors }: BarTableParts, barIndex: number): BarRow {
  const bar = nameInTable(names, barIndex);
  const nothing = { tempo: null, right: null, left: null, played: 0, wrong: 0, missed: 0, added: 0, figures: [] };
  return { barIndex, bar, href: `#${anchors[barIndex] ?? ''}`, attempt: 'not played', rank: 0, ...nothing };
}

/** "7", "upbeat". */
function nameInTable(names: BarNames, barIndex: number): string {
  return names.short(barIndex) || names.long(barIndex).replace(/^the /, '');
}

/** One row. */
function barRow(parts: BarTableParts, facts: BarFacts, { all, rank }: { all: readonly BarFacts[]; rank: number }): BarRow {
  const { names, anchors, unit } = parts;
  return {
    barIndex: facts.barIndex,
    bar: nameInTable(names, facts.barIndex),
    href: `#${anchors[facts.barIndex] ?? ''}`,
    attempt: tryInWords(facts, all),
    rank,
    tempo: facts.tempo.measured ? Math.round(facts.tempo.value / unit.crotchets) : null,
    right: middleMs(facts.right),
    left: middleMs(facts.left),
    played: facts.played,
    wrong: facts.wrong,
    missed: facts.missed,
    added: facts.added,
    figures: parts.figures.get(facts) ?? [],
  };
}

/** The middle deviation in whole ms. */
function middleMs(hand: Measured<HandTiming>): number | null {
  return hand.measured ? Math.round(hand.value.medianMs) : null;
}

/** A deviation in words: "12 ms late", "8 ms early", "0 ms". */
export function deviationInWords(ms: number): string {
  const whole = Math.round(ms);
  if (whole === 0) return '0 ms';
  return `${Math.abs(whole)} ms ${whole > 0 ? 'late' : 'early'}`;
}

/** "Crotchet =", the heading of a column of tempos. */
export function tempoHeading(unit: BeatUnit, language: Language = 'british'): string {
  return `${sentenceCase(word(unit.name, language))} =`;
}
