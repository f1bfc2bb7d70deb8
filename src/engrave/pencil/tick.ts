import type { Point } from '../box.js';
import { markGroup, type MarkLabels } from './mark.js';
import { pencilStroke } from './stroke.js';

/** The pen goes down by this much, then up, px, and this far to the right each time. */
const DOWN_PX = 5;
const UP_PX = 14;
const DOWN_ACROSS_PX = 4;
const UP_ACROSS_PX = 10;

/** A tick: well done. @param start where the pencil is set down */
export function tick(start: Point, labels: MarkLabels): string {
  const turn = { x: start.x + DOWN_ACROSS_PX, y: start.y + DOWN_PX };
  const end = { x: turn.x + UP_ACROSS_PX, y: turn.y - UP_PX };
  // the way up is slightly hollow, as a wrist swings
  const swing = { x: turn.x + UP_ACROSS_PX * 0.42, y: turn.y - UP_PX * 0.52 };
  return markGroup('tick', labels, pencilStroke([start, { x: start.x + 2.2, y: start.y + 2 }, turn], { seed: labels.seed }) + pencilStroke([turn, swing, end], { seed: labels.seed + 1 }));
}
