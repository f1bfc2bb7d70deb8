/**
 * A lane with one or two curves under a system: tempo, level, balance. It shares the system's x and its bar lines and has the same scale
 * in every system of a page. Points stand under their written moments; where nothing was measured the curve is broken.
 */
import type { Lane } from './compose.js';
import { laneBars } from './laneBars.js';
import { LANE_LABEL_PX, laneLabel } from './laneLabel.js';
import { fixed } from './numbers.js';
import type { TickPlaces } from './piece/tickToX.js';
import { textWidth } from './textWidth.js';
import type { EngravedSystem } from './types.js';
import { escapeXml } from './xmlTree.js';

/** A measured value at a written moment. */
export interface CurvePoint {
  /** Written ticks along the printed bars. */
  readonly tick: number;
  readonly value: number;
  /** What to read out: "bar 7: 64". */
  readonly title: string;
  /** Place in `Score.bars`. */
  readonly barIndex: number;
  /** True where the curve does not lead here from the point before. */
  readonly apart: boolean;
}

/** One curve. */
export interface Curve {
  /** What it is called beside the lane, for a second curve; "" for the only one. */
  readonly name: string;
  readonly points: readonly CurvePoint[];
  /** A second curve is drawn with open points and a thinner line. */
  readonly second: boolean;
}

/** A level line with its label. */
export interface CurveRule {
  readonly value: number;
  readonly text: string;
}

/** A written mark over the curve, in the blue pencil. */
export interface CurveWord {
  readonly tick: number;
  readonly text: string;
}

/** What a lane of curves shows, on all systems alike. */
export interface CurveLane {
  /** Read out as the lane's name. */
  readonly title: string;
  readonly curves: readonly Curve[];
  /** Values at the lower and the upper edge. */
  readonly low: number;
  readonly high: number;
  readonly rules: readonly CurveRule[];
  readonly words: readonly CurveWord[];
}

/** Height of the drawing between its edges, of the row for words, and room above and below, px. */
const DRAWING_PX = 44;
const WORDS_PX = 18;
const EDGE_PX = 8;

/** Radius of a point, px. */
const POINT_PX = 2.1;

/** Room between a label and what follows, px. */
const GAP_PX = 8;

/** The lane of one system; without a point in it, it has no height. */
export function laneCurve(system: EngravedSystem, places: TickPlaces, lane: CurveLane): Lane {
  const curves = lane.curves.map((curve) => ({ ...curve, points: curve.points.filter(({ tick }) => tick >= places.fromTick && tick < places.toTick) }));
  if (curves.every(({ points }) => points.length === 0)) return { svg: '', heightPx: 0 };
  const words = lane.words.filter(({ tick }) => tick >= places.fromTick && tick < places.toTick);
  const top = EDGE_PX + (words.length > 0 ? WORDS_PX : 0);
  const bottom = top + DRAWING_PX;
  const yOf = (value: number): number => bottom - (DRAWING_PX * (Math.min(lane.high, Math.max(lane.low, value)) - lane.low)) / (lane.high - lane.low);
  const drawing = [
    laneBars(system, { top: EDGE_PX / 2, bottom: bottom + EDGE_PX / 2 }),
    ...lane.rules.map((rule) => ruleSvg(rule, yOf(rule.value), places)),
    ...words.map(({ tick, text }) => `<text class="lane-word" x="${fixed(places.at(tick))}" y="${fixed(EDGE_PX + WORDS_PX - LANE_LABEL_PX / 2)}" font-size="${LANE_LABEL_PX}" font-style="italic" stroke="none">${escapeXml(text)}</text>`),
    ...curves.map((curve) => curveSvg(curve, places, yOf)),
  ];
  return { svg: `<g class="lane lane-curve" stroke="currentColor" stroke-width="1" stroke-linecap="round" stroke-linejoin="round"><title>${escapeXml(lane.title)}</title>${drawing.join('')}</g>`, heightPx: bottom + EDGE_PX };
}

/** A level line; it begins behind its label and not before the first note. */
function ruleSvg({ text }: CurveRule, y: number, { startX, endX }: TickPlaces): string {
  const start = Math.max(startX - GAP_PX, textWidth(text, { size: LANE_LABEL_PX, italic: true }) + GAP_PX);
  return `<path class="lane-rule" stroke-opacity="0.3" d="M${fixed(start)} ${fixed(y)}H${fixed(endX)}"/>${laneLabel(text, y)}`;
}

/** Line and points of one curve. */
function curveSvg({ points, second, name }: Curve, places: TickPlaces, yOf: (value: number) => number): string {
  const way = points.map(({ tick, value, apart }, i) => `${i === 0 || apart ? 'M' : 'L'}${fixed(places.at(tick))} ${fixed(yOf(value))}`).join('');
  const dots = points.map(({ tick, value, title, barIndex }) =>
    `<circle class="lane-point" data-bar="${barIndex}" cx="${fixed(places.at(tick))}" cy="${fixed(yOf(value))}" r="${POINT_PX}" ${second ? 'fill="var(--paper)"' : 'fill="currentColor" stroke="none"'}><title>${escapeXml(title)}</title></circle>`);
  return `<g class="curve${second ? ' second' : ''}"${name === '' ? '' : ` aria-label="${escapeXml(name)}"`}><path fill="none" stroke-width="${second ? 1 : 1.5}" stroke-opacity="${second ? 0.7 : 1}" d="${way}"/>${dots.join('')}</g>`;
}
