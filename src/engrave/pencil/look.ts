import type { Point } from '../box.js';
import { markGroup, type MarkLabels } from './mark.js';
import { pencilStroke } from './stroke.js';

/** Radius of a glass, length of the bridge, length of the temples and how far they turn up, px; 35 × 10 overall. */
const RADIUS_PX = 5.2;
const BRIDGE_PX = 5;
const TEMPLE_PX = 5;
const TURN_UP_PX = 3;

/** Points round a glass. */
const POINTS = 13;

/** Spectacles: look here. @param centre middle of the bridge */
export function look(centre: Point, labels: MarkLabels): string {
  const apart = RADIUS_PX + BRIDGE_PX / 2;
  const glasses = ([-1, 1] as const).map((side, i) => glass({ x: centre.x + side * apart, y: centre.y }, labels.seed + i));
  const bridge = [{ x: centre.x - BRIDGE_PX / 2, y: centre.y - 0.5 }, { x: centre.x, y: centre.y - 2.2 }, { x: centre.x + BRIDGE_PX / 2, y: centre.y - 0.5 }];
  const temples = ([-1, 1] as const).map((side, i) => pencilStroke(temple(centre, side, apart), { seed: labels.seed + 4 + i, jitterPx: 0.2 }));
  return markGroup('look', labels, glasses.join('') + pencilStroke(bridge, { seed: labels.seed + 3, jitterPx: 0.2 }) + temples.join(''));
}

/** A circle that overlaps itself a little. */
function glass(centre: Point, seed: number): string {
  const points = Array.from({ length: POINTS }, (_, i) => {
    const angle = -2 + (2.12 * Math.PI * i) / (POINTS - 1);
    return { x: centre.x + RADIUS_PX * Math.cos(angle), y: centre.y + RADIUS_PX * Math.sin(angle) };
  });
  return pencilStroke(points, { seed, jitterPx: 0.25 });
}

/** From the hinge outwards, the end turned up. */
function temple(centre: Point, side: 1 | -1, apart: number): readonly Point[] {
  const hinge = centre.x + side * (apart + RADIUS_PX);
  return [
    { x: hinge, y: centre.y - 1 },
    { x: hinge + side * TEMPLE_PX * 0.6, y: centre.y - 1 - TURN_UP_PX * 0.4 },
    { x: hinge + side * TEMPLE_PX, y: centre.y - 1 - TURN_UP_PX },
  ];
}
