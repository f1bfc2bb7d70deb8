/**
 * The strip of a piece: its recordings through the weeks, time true to scale, one stroke each, as tall as the part of the
 * piece that was played. All strips of a page share their weeks, so that what came in one week stands in one line.
 */
import { pencilStroke } from '../engrave/index.js';
import { drawing, element, pencilLine, px } from './svg.js';

/** One recording on the strip. */
export interface StripStroke {
  readonly id: number;
  readonly href: string;
  readonly receivedAt: string;
  /** 0-1: share of the bars that was played; null where it is not known. */
  readonly share: number | null;
  readonly heard: boolean;
}

/** From when to when, ms. */
export interface StripSpan {
  readonly fromMs: number;
  readonly toMs: number;
}

const MONTH = new Intl.DateTimeFormat('en-GB', { month: 'short' });

const DAY_MS = 86_400_000;
const WEEK_MS = 7 * DAY_MS;

/** The strip, px: as wide as the music desk's column. */
const WIDTH_PX = 656;
const HEIGHT_PX = 62;
const EDGE_PX = 10;
const BASE_PX = 42;
const TALLEST_PX = 32;
const SHORTEST_PX = 8;

/** A finger's width around a stroke, px; half of it where two stand close. */
const TOUCH_PX = 24;

/** A name of a month needs so much room, px. */
const MONTH_PX = 36;

/** Longest gap (>) between the last recording and now that a strip still shows, ms. */
const LONGEST_GAP_MS = 6 * WEEK_MS;

/** Whole weeks around some moments, to now where that is near. */
export function spanOf(moments: readonly string[], now: Date): StripSpan {
  const times = moments.map((moment) => Date.parse(moment));
  const [first, last] = [Math.min(...times), Math.max(...times)];
  const end = now.getTime() - last <= LONGEST_GAP_MS ? Math.max(last, now.getTime()) : last;
  return { fromMs: monday(first), toMs: monday(end) + WEEK_MS };
}

/** One strip as SVG; what it shows stands in the list below it, so that a screen reader passes it over. */
export function stripSvg(strokes: readonly StripStroke[], span: StripSpan): string {
  const x = (ms: number): number => EDGE_PX + ((ms - span.fromMs) / (span.toMs - span.fromMs)) * (WIDTH_PX - 2 * EDGE_PX);
  const base = element('g', { class: 'strip-base' }, pencilLine(EDGE_PX, WIDTH_PX - EDGE_PX, { y: BASE_PX, seed: strokes.length + 1 }));
  return drawing({ widthPx: WIDTH_PX, heightPx: HEIGHT_PX }, { class: 'strip', 'aria-hidden': 'true', focusable: 'false' }, base + weeks(span, x) + strokes.map((stroke) => strokeSvg(stroke, x(Date.parse(stroke.receivedAt)))).join(''));
}

/** A tick on every Monday, and the month's name where one begins. */
function weeks({ fromMs, toMs }: StripSpan, x: (ms: number) => number): string {
  const ticks: string[] = [];
  let month = -1;
  let free = 0;
  for (let at = fromMs; at < toMs; at = nextMonday(at)) {
    const moment = new Date(at);
    ticks.push(element('path', { class: 'strip-week', d: `M${px(x(at))} ${BASE_PX}v4` }));
    if (moment.getMonth() !== month && x(at) >= free) {
      month = moment.getMonth();
      free = x(at) + MONTH_PX;
      const name = MONTH.format(moment);
      ticks.push(element('text', { class: 'strip-month', x: x(at), y: HEIGHT_PX - 4 }, name));
    }
  }
  return ticks.join('');
}

/** One recording: a stroke, and a ring on top of it where nobody has heard it. */
function strokeSvg({ id, href, share, heard }: StripStroke, x: number): string {
  const tall = share === null ? SHORTEST_PX : SHORTEST_PX + share * (TALLEST_PX - SHORTEST_PX);
  const line = element('g', { class: 'strip-stroke' }, pencilStroke([{ x, y: BASE_PX }, { x, y: BASE_PX - tall }], { seed: id, jitterPx: 0.5, plain: true }));
  const ring = heard ? '' : element('circle', { class: 'strip-ring', cx: x, cy: BASE_PX - tall - 4, r: 3 });
  const touch = element('rect', { x: x - TOUCH_PX / 2, y: 0, width: TOUCH_PX, height: BASE_PX + 4, class: 'strip-touch' });
  return element('a', { href, tabindex: '-1' }, line + ring + touch);
}

/** Midnight of the Monday on or before a moment, by this machine's clock. */
function monday(ms: number): number {
  const day = new Date(ms);
  return new Date(day.getFullYear(), day.getMonth(), day.getDate() - ((day.getDay() + 6) % 7)).getTime();
}

/** The Monday after one; weeks of an hour more or less are weeks too. */
function nextMonday(ms: number): number {
  const day = new Date(ms);
  return new Date(day.getFullYear(), day.getMonth(), day.getDate() + 7).getTime();
}
