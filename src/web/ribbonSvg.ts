/**
 * The route ribbon drawn. Shape says what happened: a pencil line is what was played, two slanted lines a stop,
 * a dotted line the way back, a thin whole line a repeat that the score asks for. Bars and strands are links.
 */
import type { Strand } from '../judge/index.js';
import type { BarNames } from '../score/index.js';
import { clockTime } from './moments.js';
import { ROOMY_STRANDS, type RibbonColumn, type RibbonLayout, type RibbonRow, type RibbonSegment } from './ribbonLayout.js';
import { drawing, element, escaped, path, pencilLine, px } from './svg.js';

/** Half of the distance at which the way back runs under the strand it leaves, px. */
const TURN_PX = 5;

/** Least room for a clock time left of a strand's start, px. */
const CLOCK_PX = 38;

/** How the ribbon's links are named and where they lead. */
export interface RibbonLinks {
  readonly names: BarNames;
  /** Address of a bar on the page. */
  readonly barHref: (barIndex: number) => string;
  /** Address that shows one strand. */
  readonly strandHref: (strand: Strand) => string;
  /** The strand that is shown, or null for the last tries. */
  readonly shown: number | null;
  /** "wide" or "narrow". */
  readonly variant: string;
}

/**
 * Draws the route: bars as columns that are links, each strand a pencil line, the way back dotted
 * with an arrow.
 */
export function ribbonSvg(layout: RibbonLayout, links: RibbonLinks): string {
  const body = layout.rows.map((row, i) => rowSvg(layout, row, { links, before: layout.rows[i - 1] })).join('');
  return drawing(layout, { class: `ribbon ${links.variant}`, role: 'group', 'aria-label': 'The route' }, body);
}

/** One row: columns below, strands above. */
function rowSvg(layout: RibbonLayout, row: RibbonRow, given: { links: RibbonLinks; before: RibbonRow | undefined }): string {
  const lines = row.barLines.map((x, i) => {
    const isLast = i === row.barLines.length - 1;
    return path(isLast ? 'edge-line' : 'line', `M${px(x)} ${px(row.top)}V${px(row.bottom)}`);
  });
  const columns = row.columns.map((column) => columnSvg(row, column, given.links)).join('');
  const returns = row.segments.map((segment, i) => returnSvg(layout, row, { segment, next: row.segments[i + 1] })).join('');
  const strands = row.segments.map((segment) => strandSvg(row, segment, given.links)).join('');
  return element('g', {}, columns + lines.join('') + returns + strands);
}

/** A bar's column: its number, and a target over its whole height. */
function columnSvg(row: RibbonRow, column: RibbonColumn, { names, barHref }: RibbonLinks): string {
  const { left, right, barIndex } = column;
  const rect = element('rect', { x: left, y: row.top, width: right - left, height: row.bottom - row.top });
  const number = element('text', { x: numberX(row, column), y: row.top + 14 }, escaped(names.short(barIndex)));
  return element('a', { class: 'column', href: barHref(barIndex), 'data-bar': String(barIndex), 'aria-label': names.long(barIndex) }, rect + number);
}

/** A number stands right of its own bar line, also where an upbeat shares the column. */
function numberX(row: RibbonRow, column: RibbonColumn): number {
  const own = row.barLines.filter((x) => x >= column.left && x < column.right - 20);
  const sharesUpbeat = column.barIndex === 1 && column === row.columns[0];
  return (sharesUpbeat ? (own[1] ?? column.left) : column.left) + 8;
}

/** A strand: the pencil line, its ends, its clock time, and a wider line to reach it by. */
function strandSvg(row: RibbonRow, segment: RibbonSegment, links: RibbonLinks): string {
  const { strand, fromX, toX, y, startsHere, endsHere } = segment;
  const line = pencilLine(fromX, toX, { y, seed: strand.index + 1 });
  const label = `${sayArrival(strand)} ${links.names.range(strand.fromBar, strand.toBar)} at ${clockTime(strand.startS)}`;
  const start = startsHere && strand.arrival === 'start' ? path('stroke', `M${px(fromX)} ${px(y - 5)}v10`) : '';
  const end = endsHere ? endMark(segment) : '';
  const reach = path('reach', `M${px(fromX)} ${px(y)}H${px(toX)}`);
  const attributes = {
    class: links.shown === strand.index ? 'strand shown' : 'strand',
    href: links.strandHref(strand),
    'data-strand': String(strand.index),
    'aria-label': label,
  };
  const crowded = row.segments.length > ROOMY_STRANDS;
  const clock = startsHere && wentBack(segment) && !crowded ? clockSvg(segment, row) : '';
  return element('a', attributes, reach + element('g', { class: 'stroke' }, line) + start + end) + clock;
}

/** Words for a strand's link. */
function sayArrival(strand: Strand): string {
  if (strand.arrival === 'back') return 'Show the try at';
  return strand.arrival === 'order' ? 'Show the repeat,' : 'Show';
}

/** Two slanted lines where the pupil stopped and went elsewhere, an upright at the very end. */
function endMark({ after, toX, y }: RibbonSegment): string {
  if (after === null) return path('stroke', `M${px(toX)} ${px(y - 5)}v10`);
  return after.arrival === 'back' ? path('stroke', `M${px(toX - 1)} ${px(y + 7)}l5 -14m1 14l5 -14`) : '';
}

/** When the strand begins, left of it and of the row's first line, or under its start where the left edge is near. */
function clockSvg({ strand, fromX, y }: RibbonSegment, row: RibbonRow): string {
  const edge = row.barLines[0] ?? 0;
  const besideLine = fromX - 12 - CLOCK_PX < edge && fromX - 12 > edge - 4;
  const left = besideLine ? edge - 4 : fromX - 12;
  const words = clockTime(strand.startS);
  if (left < CLOCK_PX) return element('text', { class: 'clock', x: fromX + 4, y: y + 14 }, words);
  return element('text', { class: 'clock', x: left, y: y + 5, 'text-anchor': 'end' }, words);
}

/** The way from one strand to the next within this row, or to and from its edges. */
function returnSvg(layout: RibbonLayout, row: RibbonRow, { segment, next }: { segment: RibbonSegment; next: RibbonSegment | undefined }): string {
  const out = segment.endsHere && next !== undefined && next.strand.index === segment.strand.index + 1 && next.startsHere ? wayTo(segment, next) : '';
  const first = row.segments[0] === segment && segment.startsHere && wentBack(segment) && cameFromElsewhere(row, segment) ? wayIn(layout, segment) : '';
  return first + out + (leapsAway(row, segment) ? wayOut(row, segment) : '');
}

/** True where the pupil left bars out and went on in another row. */
function leapsAway(row: RibbonRow, { endsHere, after }: RibbonSegment): boolean {
  return endsHere && after?.arrival === 'on' && !row.segments.some(({ strand }) => strand.index === after.index);
}

/** A dotted line over the bars left out, to the end of the row. */
function wayOut(row: RibbonRow, { toX, y }: RibbonSegment): string {
  return path('return', `M${px(toX + 4)} ${px(y)}H${px(Math.max(toX + 10, row.barLines.at(-1) ?? 0))}`);
}

/** Half-circle, dotted line, half-circle, and one open arrow-head in the middle. */
function wayTo(segment: RibbonSegment, next: RibbonSegment): string {
  const kind = next.strand.arrival === 'order' ? 'return order' : 'return';
  const middle = (segment.y + next.y) / 2;
  const radius = Math.min(TURN_PX, middle - segment.y);
  // the two slanted lines of a stop need their room
  const fromX = segment.toX + (next.strand.arrival === 'back' ? 12 : 2);
  const toX = next.fromX - 4;
  const forward = toX > fromX;
  if (forward) return path(kind, `M${px(fromX)} ${px(segment.y)}L${px(toX)} ${px(next.y)}`);
  const [out, back] = [middle - segment.y, next.y - middle];
  const turns = [`a${px(radius)} ${px(out / 2)} 0 0 1 0 ${px(out)}`, `a${px(radius)} ${px(back / 2)} 0 0 0 0 ${px(back)}`] as const;
  const way = path(kind, `M${px(fromX)} ${px(segment.y)}${turns[0]}H${px(toX)}${turns[1]}`);
  const head = (fromX + toX) / 2;
  return way + path('stroke head', `M${px(head + 7)} ${px(middle - 4)}L${px(head)} ${px(middle)}l7 4`);
}

/** True where the way to this strand leads back on paper. */
function wentBack({ before, strand }: RibbonSegment): boolean {
  return before !== null && strand.fromTick < before.toTick;
}

/** True where the strand before this one ended in another row. */
function cameFromElsewhere(row: RibbonRow, segment: RibbonSegment): boolean {
  return !row.segments.some((other) => other.strand.index === segment.strand.index - 1);
}

/** A short dotted line that comes in over the start of a strand from another row. */
function wayIn(layout: RibbonLayout, { fromX, y, strand }: RibbonSegment): string {
  const kind = strand.arrival === 'order' ? 'return order' : 'return';
  const from = Math.min(fromX + 60, layout.widthPx - 2);
  return path(kind, `M${px(from)} ${px(y - 10)}H${px(fromX - 4)}a5 5 0 0 0 0 10`);
}
