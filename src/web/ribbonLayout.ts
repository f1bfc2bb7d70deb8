/**
 * Where everything of the route ribbon stands. The written bars run from left to right, true to their beats; the
 * way taken lies under them in strands, one below another in time order. A bar must stay as wide as a fingertip,
 * so a long piece takes up to three rows, and beyond that several bars share a column.
 */
import type { Score } from '../score/index.js';
import type { Strand } from '../judge/index.js';

/** One link of the ribbon: a bar, or in a long piece several, as wide as its beats. */
export interface RibbonColumn {
  /** Place in `Score.bars` of the bar that the link leads to. */
  readonly barIndex: number;
  readonly left: number;
  readonly right: number;
}

/** A strand's piece in one row. */
export interface RibbonSegment {
  readonly strand: Strand;
  readonly fromX: number;
  readonly toX: number;
  readonly y: number;
  /** False where it comes from, or runs on into, another row. */
  readonly startsHere: boolean;
  readonly endsHere: boolean;
  /** The strands before and after it in the route; null at its ends. */
  readonly after: Strand | null;
  readonly before: Strand | null;
}

/** One row of bars. */
export interface RibbonRow {
  readonly top: number;
  readonly bottom: number;
  readonly columns: readonly RibbonColumn[];
  /** Where bar lines stand. */
  readonly barLines: readonly number[];
  readonly segments: readonly RibbonSegment[];
}

/** The ribbon in px. */
export interface RibbonLayout {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly rows: readonly RibbonRow[];
}

/** Widest target first: a bar's column is as wide as a fingertip needs. */
export const TARGET_PX = 44;

/** Space for the bar numbers over the strands, between two strands, and under the last. */
const NUMBERS_PX = 34;
const STRAND_PX = 20;
const TIGHT_STRAND_PX = 13;
const BELOW_PX = 12;
const ROW_GAP_PX = 14;

/** More strands than this in a row stand closer together. */
export const ROOMY_STRANDS = 6;

/** Room for the clock times of strands that begin at the left edge. */
const CLOCK_INSET_PX = 50;

/**
 * Inset of the first and last bar line, and how far a strand that runs on crosses the edge of its
 * row.
 */
const INSET_PX = 15;
const OVERRUN_PX = 6;

/** A strand of one note is still seen. */
const LEAST_STROKE_PX = 4;

/** Rows that a piece may take; beyond, several bars share a column. */
const MOST_ROWS = 3;

/** Bars of one row, as places in `Score.bars`, last inclusive. */
interface RowBars {
  readonly first: number;
  readonly last: number;
}

/** Lays the route out, true to the beats. */
export function layOutRibbon(score: Score, strands: readonly Strand[], widthPx: number): RibbonLayout {
  const tight = layOutRows(score, strands, { widthPx, leftPx: INSET_PX });
  const segments = tight.rows.flatMap((row) => row.segments);
  const clockAtEdge = segments.some(({ startsHere, before, fromX }) => startsHere && before !== null && fromX < CLOCK_INSET_PX);
  return clockAtEdge ? layOutRows(score, strands, { widthPx, leftPx: CLOCK_INSET_PX }) : tight;
}

/** Where bars may stand. */
interface RibbonFrame {
  readonly widthPx: number;
  /** Left inset. */
  readonly leftPx: number;
}

/** All rows, one under another. */
function layOutRows(score: Score, strands: readonly Strand[], frame: RibbonFrame): RibbonLayout {
  const { widthPx, leftPx } = frame;
  const perRow = Math.max(1, Math.floor((widthPx - leftPx - INSET_PX) / TARGET_PX));
  const perColumn = Math.max(1, Math.ceil(score.bars.length / (perRow * MOST_ROWS)));
  const rowCount = Math.max(1, Math.ceil(score.bars.length / (perRow * perColumn)));
  const perRowBars = Math.ceil(score.bars.length / rowCount);
  const starts = Array.from({ length: rowCount }, (_, i) => i * perRowBars).filter((first) => first < score.bars.length);
  const cut = starts.map((first) => ({ first, last: Math.min(first + perRowBars, score.bars.length) - 1 }));
  const longest = Math.max(1, ...cut.map((bars) => ticksOf(score, bars)));
  const pxPerTick = (widthPx - leftPx - INSET_PX) / longest;
  const rows: RibbonRow[] = [];
  let top = 0;
  for (const bars of cut) {
    const row = layOutRow({ score, strands, ...frame, perColumn, pxPerTick }, bars, top);
    rows.push(row);
    top = row.bottom + ROW_GAP_PX;
  }
  return { widthPx, heightPx: Math.max(0, top - ROW_GAP_PX), rows };
}

/** Length of a row's bars. */
function ticksOf(score: Score, { first, last }: RowBars): number {
  const end = score.bars[last];
  return end === undefined ? 0 : end.startTick + end.lengthTicks - (score.bars[first]?.startTick ?? 0);
}

/** What every row is laid out from. */
interface RibbonParts extends RibbonFrame {
  readonly score: Score;
  readonly strands: readonly Strand[];
  readonly perColumn: number;
  /** One scale for all rows: that of the longest. */
  readonly pxPerTick: number;
}

/** One row: columns, bar lines, and the strands that touch it under one another in time order. */
function layOutRow(parts: RibbonParts, bars: RowBars, top: number): RibbonRow {
  const { score, strands, leftPx, pxPerTick } = parts;
  const startTick = score.bars[bars.first]?.startTick ?? 0;
  const endTick = startTick + ticksOf(score, bars);
  const xOf = (tick: number): number => leftPx + (Math.min(Math.max(tick, startTick), endTick) - startTick) * pxPerTick;
  const here = strands.filter((strand) => strand.fromBar <= bars.last && strand.toBar >= bars.first);
  const step = here.length > ROOMY_STRANDS ? TIGHT_STRAND_PX : STRAND_PX;
  const segments = here.map((strand, rank) => segmentOf(parts, strand, { bars, xOf, y: top + NUMBERS_PX + rank * step }));
  const bottom = top + NUMBERS_PX + Math.max(0, here.length - 1) * step + BELOW_PX;
  const lines = score.bars.slice(bars.first, bars.last + 1).map((bar) => xOf(bar.startTick));
  return { top, bottom, columns: columnsOf(parts, bars, xOf), barLines: [...lines, xOf(endTick)], segments };
}

/** A strand's piece between the edges of the row. */
function segmentOf({ strands }: RibbonParts, strand: Strand, at: { bars: RowBars; xOf: (tick: number) => number; y: number }): RibbonSegment {
  const { bars } = at;
  const startsHere = strand.fromBar >= bars.first;
  const endsHere = strand.toBar <= bars.last;
  const fromX = at.xOf(strand.fromTick) - (startsHere ? 0 : OVERRUN_PX);
  const toX = at.xOf(strand.toTick) + (endsHere ? 0 : OVERRUN_PX);
  const neighbours = { before: strands[strand.index - 1] ?? null, after: strands[strand.index + 1] ?? null };
  return { strand, fromX, toX: Math.max(toX, fromX + LEAST_STROKE_PX), y: at.y, startsHere, endsHere, ...neighbours };
}

/** Links of a row; an upbeat shares the target of the bar after it. */
function columnsOf(parts: RibbonParts, bars: RowBars, xOf: (tick: number) => number): readonly RibbonColumn[] {
  const { score, perColumn } = parts;
  const columns: RibbonColumn[] = [];
  let first = bars.first;
  while (first <= bars.last) {
    const upbeat = first === 0 && bars.last > 0 && isShort(score, 0) ? 1 : 0;
    const full = first + perColumn - 1 + upbeat;
    // too few bars left for a column of their own: they join this one
    const last = bars.last - full < perColumn ? bars.last : full;
    const end = score.bars[last];
    const start = score.bars[first];
    if (start === undefined || end === undefined) break;
    columns.push({ barIndex: first + upbeat, left: xOf(start.startTick), right: xOf(end.startTick + end.lengthTicks) });
    first = last + 1;
  }
  return columns;
}

/** True for a bar that holds less than its time signature says. */
function isShort(score: Score, barIndex: number): boolean {
  const bar = score.bars[barIndex];
  return bar !== undefined && bar.lengthTicks < bar.nominalTicks;
}
