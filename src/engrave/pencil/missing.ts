import type { Point } from '../box.js';
import { markGroup, type MarkLabels } from './mark.js';
import { pencilStroke } from './stroke.js';

/** Width and height of the caret and distance of its apex under the missing head's centre, px. */
const WIDTH_PX = 11;
const HEIGHT_PX = 9.5;
const BELOW_PX = 8;

/** How far a caret reaches under the note-head's centre, px. */
export const MISSING_REACH_PX = BELOW_PX + HEIGHT_PX;

/** An open caret pointing up at a written note that was not played. @param head centre of its note-head */
export function missing(head: Point, labels: MarkLabels): string {
  const apex = { x: head.x, y: head.y + BELOW_PX };
  const foot = (side: 1 | -1): Point => ({ x: head.x + (side * WIDTH_PX) / 2, y: apex.y + HEIGHT_PX });
  const left = pencilStroke([foot(-1), halfway(foot(-1), apex), apex], { seed: labels.seed });
  const right = pencilStroke([apex, halfway(apex, foot(1)), foot(1)], { seed: labels.seed + 1 });
  return markGroup('missing', labels, left + right);
}

/** Half the height of the caret that points at a head from the right, px. */
export const MISSING_BESIDE_PX = 4.6;

/** Width of that caret and distance of its apex from the head's centre, px. */
const BESIDE_WIDTH_PX = 8;
const BESIDE_GAP_PX = 7.5;

/** The same from the right, smaller, where heads of a chord stand close below. */
export function missingBeside(head: Point, labels: MarkLabels): string {
  const apex = { x: head.x + BESIDE_GAP_PX, y: head.y };
  const foot = (side: 1 | -1): Point => ({ x: apex.x + BESIDE_WIDTH_PX, y: head.y + side * MISSING_BESIDE_PX });
  const strokes = ([-1, 1] as const).map((side, i) => pencilStroke([foot(side), halfway(foot(side), apex), apex], { seed: labels.seed + i, jitterPx: 0.25 }));
  return markGroup('missing', labels, strokes.join(''));
}

/** A point between, so that the hand has something to sway by. */
function halfway(a: Point, b: Point): Point {
  return { x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 };
}
