/**
 * The bar drawer: all that is known of one bar, its tries side by side. The drawers of every bar stand in the
 * page; the address (`#bar-7`) opens one, so they can be read, linked to and written in without script.
 */
import type { Hands } from '../align/index.js';
import { sentenceCase, word, type Language, type Measured } from '../base/index.js';
import type { EngravedBar, EngravedSystem } from '../engrave/index.js';
import type { BarFacts, HandTiming } from '../measure/index.js';
import { slipsInWords, tryInWords, visitKey, visitsInWords, type Slip } from '../judge/index.js';
import type { BarNames, BeatUnit, Score } from '../score/index.js';
import type { BarColumn, VisitFigures } from './barColumns.js';
import { deviationInWords } from './barTable.js';
import type { CommentView } from './commentViews.js';
import { hangerSvg, linkToBar, type BarLink } from './drawerFrame.js';
import { clockTime } from './moments.js';
import { unbroken } from './unbroken.js';

/** One try at a bar, a column of the drawer's table. */
export interface TryView {
  /** "first try, 0:27". */
  readonly heading: string;
  /** What differs in each hand. */
  readonly rightNotes: string;
  readonly leftNotes: string;
  readonly right: string;
  readonly left: string;
  readonly tempo: string;
  /** Figures of the drawer's further rows, in their order. */
  readonly figures: readonly string[];
  /** For the form: "pass.attempt". */
  readonly value: string;
  readonly name: string;
}

/** Everything known of one bar, opened under its system. */
export interface DrawerView {
  readonly anchor: string;
  readonly barIndex: number;
  /** "Bar 7, tried twice". */
  readonly title: string;
  /** "bar 7". */
  readonly name: string;
  /** Lines that tie the drawer to its bar, SVG. */
  readonly hanger: string;
  readonly previous: BarLink | null;
  readonly next: BarLink | null;
  readonly tries: readonly TryView[];
  /** Names of the further rows: what some try at this bar has a figure for. */
  readonly rows: readonly string[];
  /** True where the table has a figure in ms. */
  readonly measured: boolean;
  /** Why something in the table says "not measured". */
  readonly reasons: readonly string[];
  /** "every try", or "every time" where only repeats brought the bar again. */
  readonly everyTry: string;
  /** "crotchet =". */
  readonly tempoUnit: string;
  /** Written against played, SVG, one a try. */
  readonly timeLines: readonly { readonly caption: string; readonly svg: string }[];
  readonly comments: readonly CommentView[];
  /** Last bars a new comment may reach to. */
  readonly reach: readonly { readonly value: number; readonly name: string }[];
  /** Idempotency key of the form for a new comment. */
  readonly key: string;
  /** A comment that was just taken off, for undoing it. */
  readonly removed: CommentView | null;
}

/** What drawers are made from. */
export interface DrawerParts {
  readonly score: Score;
  readonly names: BarNames;
  readonly anchors: readonly string[];
  readonly visits: ReadonlyMap<number, readonly BarFacts[]>;
  readonly slips: ReadonlyMap<string, readonly Slip[]>;
  readonly comments: ReadonlyMap<number, readonly CommentView[]>;
  readonly removed: { readonly barIndex: number; readonly comment: CommentView } | null;
  readonly unit: BeatUnit;
  readonly columns: readonly BarColumn[];
  readonly figures: VisitFigures;
  readonly language: Language;
  /** Written against played in one visit, SVG. */
  readonly timeLine: (visit: BarFacts) => string;
  /** Which hands played in a visit. */
  readonly handsOf: (visit: BarFacts) => Hands;
  /** Makes idempotency keys. */
  readonly newKey: () => string;
}

/** In a cell; the reasons stand below the table. */
const NOT_MEASURED = 'not measured';

/** A comment reaches over so many bars at most. */
const LONGEST_REACH_BARS = 16;

/** The drawers of the bars in one system. */
export function drawersOf(system: EngravedSystem, parts: DrawerParts): readonly DrawerView[] {
  return system.bars.map((bar) => drawerOf(system, bar, parts));
}

/** One drawer. */
function drawerOf(system: EngravedSystem, bar: EngravedBar, parts: DrawerParts): DrawerView {
  const { names, anchors, visits } = parts;
  const { barIndex } = bar;
  const all = visits.get(barIndex) ?? [];
  const name = names.long(barIndex);
  const shown = parts.columns.map((column, i) => ({ column, i })).filter(({ i }) => all.some((visit) => figureAt(parts, visit, i) !== null));
  const times = all.length === 0 ? 'not played' : visitsInWords(all);
  return {
    anchor: anchors[barIndex] ?? '',
    barIndex,
    name,
    title: sentenceCase(times === '' ? name : `${name}, ${times}`),
    hanger: hangerSvg(system, bar),
    previous: linkToBar(barIndex - 1, parts),
    next: linkToBar(barIndex + 1, parts),
    tries: all.map((visit) => ({ ...tryView(visit, all, parts), figures: shown.map(({ column, i }) => figureInWords(column, figureAt(parts, visit, i))) })),
    rows: shown.map(({ column }) => column.label),
    measured: all.some(({ right, left }) => right.measured || left.measured),
    reasons: reasonsOf(all),
    everyTry: new Set(all.map(({ pass }) => pass)).size === all.length ? 'every time' : 'every try',
    tempoUnit: `${word(parts.unit.name, parts.language)} =`,
    timeLines: all.map((visit) => ({ caption: captionOf(visit, all), svg: parts.timeLine(visit) })).filter(({ svg }) => svg !== ''),
    comments: parts.comments.get(barIndex) ?? [],
    reach: anchors.slice(barIndex, barIndex + LONGEST_REACH_BARS).map((_, i) => ({ value: barIndex + i, name: names.long(barIndex + i) })),
    key: parts.newKey(),
    removed: parts.removed?.barIndex === barIndex ? parts.removed.comment : null,
  };
}

/** "First try, from 0:27". */
function captionOf(visit: BarFacts, all: readonly BarFacts[]): string {
  const attempt = tryInWords(visit, all);
  return attempt === '' ? `From ${clockTime(visit.startS)}` : `${sentenceCase(attempt)}, from ${clockTime(visit.startS)}`;
}

/** One column of the table. */
function tryView(visit: BarFacts, all: readonly BarFacts[], parts: DrawerParts): Omit<TryView, 'figures'> {
  const slips = parts.slips.get(visitKey(visit.stretch, visit.visitIndex)) ?? [];
  const attempt = tryInWords(visit, all);
  return {
    heading: attempt === '' ? 'as played' : attempt,
    name: attempt,
    value: `${visit.pass}.${visit.attempt}`,
    rightNotes: notesInWords(slips, 'right', parts.handsOf(visit)),
    leftNotes: notesInWords(slips, 'left', parts.handsOf(visit)),
    right: handInWords(visit.right),
    left: handInWords(visit.left),
    tempo: visit.tempo.measured ? String(Math.round(visit.tempo.value / parts.unit.crotchets)) : NOT_MEASURED,
  };
}

/** One figure of a visit; null where it was not measured. */
function figureAt({ figures }: DrawerParts, visit: BarFacts, column: number): number | null {
  return figures.get(visit)?.[column] ?? null;
}

/** A figure with what it counts; a dash where it was not measured. */
function figureInWords(column: BarColumn, figure: number | null): string {
  return figure === null ? '–' : `${String(figure).replace('-', '−')}${column.suffix}`;
}

/** A hand's timing: where its middle lies, and how far its notes scatter. */
function handInWords(hand: Measured<HandTiming>): string {
  if (!hand.measured) return NOT_MEASURED;
  return `${deviationInWords(hand.value.medianMs)}, ± ${Math.round(hand.value.scatterMs)}`;
}

/** What differs in one hand. */
function notesInWords(slips: readonly Slip[], hand: Slip['hand'], hands: Hands): string {
  if (hands !== 'both' && hands !== hand) return 'not played';
  const own = slips.filter((slip) => slip.hand === hand);
  return own.length === 0 ? 'as written' : unbroken(slipsInWords(own.map((slip) => slip.text)));
}

/** Why something in the table could not be measured, each reason once. */
function reasonsOf(all: readonly BarFacts[]): readonly string[] {
  const reasons = all.flatMap(({ right, left, tempo }) => [right, left, tempo].flatMap((value) => (value.measured ? [] : value.reason)));
  return [...new Set(reasons)];
}
