import type { Point } from '../box.js';
import { markGroup, type MarkLabels } from './mark.js';
import { pencilStroke } from './stroke.js';

/** Height, lean and distance of the two strokes, px. */
const HEIGHT_PX = 15;
const LEAN_PX = 5;
const APART_PX = 5.7;

/** Two slanted lines: the music stopped here. @param centre on the top line of the stave, at the gap */
export function stop(centre: Point, labels: MarkLabels): string {
  const line = (dx: number, seed: number): string =>
    pencilStroke(
      [
        { x: centre.x + dx - LEAN_PX / 2, y: centre.y + HEIGHT_PX / 2 },
        { x: centre.x + dx, y: centre.y },
        { x: centre.x + dx + LEAN_PX / 2, y: centre.y - HEIGHT_PX / 2 },
      ],
      { seed },
    );
  return markGroup('stop', labels, line(-APART_PX / 2, labels.seed) + line(APART_PX / 2, labels.seed + 1));
}
