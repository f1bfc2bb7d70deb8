/**
 * Bars across, recordings down: what was remarked where, an aspect at a time. Hatching is denser for what was worth saying; an empty
 * bar was played clean, a bar without its line was not played. Long pieces go on in further lines, as a score does.
 */
import { drawing, element, escaped, path, px } from '../svg.js';

/** One recording's row. */
export interface MapRow {
  /** "7 October". */
  readonly name: string;
  readonly href: string;
  readonly played: ReadonlySet<number>;
  /** Bars with a remark. */
  readonly seen: ReadonlySet<number>;
  /** Those of them that were worth saying. */
  readonly worth: ReadonlySet<number>;
}

/** A whole map. */
export interface BarMap {
  readonly rows: readonly MapRow[];
  /** Printed number of every bar, by its place; "" for one without. */
  readonly numbers: readonly string[];
  /** "wide" or "narrow". */
  readonly variant: 'wide' | 'narrow';
}

/** Sizes, px. */
const NAME_PX = 92;
const ROW_PX = 26;
const HEAD_PX = 20;
const GAP_PX = 18;
const MARK_PX = 16;

/** Width of the map and most bars in a line, by variant. */
const WIDTHS = { wide: { px: 656, bars: 40 }, narrow: { px: 342, bars: 16 } } as const;

/** Every so many bars a number stands over the map. */
const NUMBER_EVERY = 4;

/** Distance of hatching strokes, px: seen, and worth saying. */
const SEEN_EVERY = 5;
const WORTH_EVERY = 2.6;

/** The map as SVG; the table beside it holds the same. */
export function barMapSvg({ rows, numbers, variant }: BarMap): string {
  const { px: widthPx, bars: most } = WIDTHS[variant];
  const lines = Math.max(1, Math.ceil(numbers.length / most));
  const perLine = Math.ceil(numbers.length / lines);
  const cellPx = (widthPx - NAME_PX) / Math.max(perLine, 1);
  const linePx = HEAD_PX + rows.length * ROW_PX + GAP_PX;
  const body = Array.from({ length: lines }, (_, line) => {
    const from = line * perLine;
    const own = numbers.slice(from, from + perLine);
    return element('g', { transform: `translate(0 ${px(line * linePx)})` }, heads(own, cellPx) + rows.map((row, i) => rowSvg(row, { from, count: own.length, cellPx, y: HEAD_PX + i * ROW_PX })).join(''));
  });
  return drawing({ widthPx, heightPx: lines * linePx }, { class: `bar-map ribbon ${variant}`, 'aria-hidden': 'true', focusable: 'false' }, body.join(''));
}

/** Bar numbers over a line. */
function heads(numbers: readonly string[], cellPx: number): string {
  return numbers.map((number, i) => (/^\d/.test(number) && (i === 0 || Number(number) % NUMBER_EVERY === 0) ? element('text', { class: 'number', x: NAME_PX + i * cellPx + cellPx / 2, y: HEAD_PX - 6, 'text-anchor': 'middle' }, escaped(number)) : '')).join('');
}

/** Where a row's cells stand. */
interface RowPlace {
  readonly from: number;
  readonly count: number;
  readonly cellPx: number;
  readonly y: number;
}

/** One recording in one line. */
function rowSvg({ name, href, played, seen, worth }: MapRow, { from, count, cellPx, y }: RowPlace): string {
  const label = element('a', { href, tabindex: '-1' }, element('text', { x: 0, y: y + MARK_PX - 3 }, escaped(name)));
  const cells = Array.from({ length: count }, (_, i) => {
    const bar = from + i;
    const left = NAME_PX + i * cellPx;
    if (!played.has(bar)) return '';
    const base = path('line', `M${px(left + 1)} ${px(y + MARK_PX)}H${px(left + cellPx - 1)}`);
    return base + (seen.has(bar) ? hatching({ left: left + 1, right: left + cellPx - 1, y }, worth.has(bar) ? WORTH_EVERY : SEEN_EVERY) : '');
  });
  return label + cells.join('');
}

/** Slanted strokes in a cell. */
function hatching({ left, right, y }: { readonly left: number; readonly right: number; readonly y: number }, everyPx: number): string {
  const strokes = Array.from({ length: Math.max(1, Math.floor((right - left) / everyPx)) }, (_, i) => {
    const x = left + i * everyPx;
    return `M${px(x)} ${px(y + MARK_PX - 2)}L${px(Math.min(right, x + 4))} ${px(y + 2)}`;
  });
  return path('stroke', strokes.join(''));
}
