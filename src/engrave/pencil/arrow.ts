import type { Point } from '../box.js';
import { markGroup, type MarkLabels } from './mark.js';
import { pencilStroke } from './stroke.js';

/** Length and rise of the shaft and size of the open head, px. */
const SHAFT_PX = 17;
const RISE_PX = 4;
const HEAD_PX = 6;

/** Distance of the tail under the note-head's centre, px. */
export const ARROW_BELOW_PX = 13;

/** Half the opening of the head, radians (about 29 degrees). */
const HEAD_ANGLE = 0.5;

/** An arrow leaning right: the note came late. @param tail exactly under the note-head */
export function lateArrow(tail: Point, labels: MarkLabels): string {
  return markGroup('late', labels, arrow(tail, 1, labels.seed));
}

/** An arrow leaning left: the note came early. @param tail as for `lateArrow` */
export function earlyArrow(tail: Point, labels: MarkLabels): string {
  return markGroup('early', labels, arrow(tail, -1, labels.seed));
}

/** Shaft and open head. */
function arrow(tail: Point, direction: 1 | -1, seed: number): string {
  const tip = { x: tail.x + direction * SHAFT_PX, y: tail.y - RISE_PX };
  const middle = { x: (tail.x + tip.x) / 2, y: (tail.y + tip.y) / 2 };
  const back = Math.atan2(tail.y - tip.y, tail.x - tip.x);
  const barb = (turn: number): Point => ({ x: tip.x + HEAD_PX * Math.cos(back + turn), y: tip.y + HEAD_PX * Math.sin(back + turn) });
  const shaft = pencilStroke([tail, middle, tip], { seed });
  const barbs = [HEAD_ANGLE, -HEAD_ANGLE].map((turn, i) => pencilStroke([barb(turn), tip], { seed: seed + 1 + i, jitterPx: 0.2, plain: true }));
  return shaft + barbs.join('');
}
