/**
 * Where a bar's line really stands. A repeat sign or a double bar is several strokes wide and may stand a little beside the
 * end of the stave lines; what the eye takes for the bar's end is its boldest stroke.
 */
import { moved, numbersOf, type Transform } from './transform.js';
import { elementsOf, ofKind, type XmlElement } from './xmlTree.js';

/** One sign at a bar's end: the middle of its boldest stroke, px. */
export type BarLineX = number;

/** How far a sign may stand from the end of the stave lines, px (<=): two stave spaces; a repeat's start reaches 1.5. */
const REACH_PX = 15;

/** All signs of a system, in the order they are drawn. */
export function barLineXs(system: XmlElement, toPx: Transform): readonly BarLineX[] {
  return ofKind(system, 'barLine').flatMap((sign) => boldest(sign, toPx));
}

/** The sign that belongs to a bar's right end, or null where none stands there. */
export function nearestLine(signs: readonly BarLineX[], right: number): BarLineX | null {
  const near = signs.filter((x) => Math.abs(x - right) <= REACH_PX).toSorted((a, b) => Math.abs(a - right) - Math.abs(b - right));
  return near[0] ?? null;
}

/** Of strokes of one width the last is meant: the second of a double bar. */
function boldest(sign: XmlElement, toPx: Transform): readonly BarLineX[] {
  const strokes = elementsOf(sign).filter(({ name }) => name === 'path').flatMap((path) => {
    const [x1, y1, x2] = numbersOf(path.attributes['d'] ?? '');
    if (x1 === undefined || y1 === undefined || x2 !== x1) return [];
    return [{ x: moved(toPx, { x: x1, y: y1 }).x, width: Number(path.attributes['stroke-width'] ?? 0) }];
  });
  const width = Math.max(0, ...strokes.map((stroke) => stroke.width));
  return strokes.filter((stroke) => stroke.width === width).map(({ x }) => x).sort((a, b) => a - b).slice(-1);
}
