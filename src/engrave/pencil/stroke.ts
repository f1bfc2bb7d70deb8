/**
 * One pencil line: a smooth curve through slightly displaced points, drawn twice, the second time thin and faint beside
 * the first, as graphite does. The displacement comes from a seed, so a mark looks the same on every visit.
 */
import { seededRandom } from '../../base/index.js';
import type { Point } from '../box.js';
import { fixed } from '../numbers.js';

/** Width of the main line, px. */
export const PENCIL_PX = 1.55;

/** Width of the faint second line, px, its strength and its offset. */
const GHOST_PX = 0.7;
const GHOST_STRENGTH = 0.45;
const GHOST_OFFSET: Point = { x: 0.45, y: -0.4 };

/** Usual displacement of a point, px: seen as a hand, not as a tremor. */
export const JITTER_PX = 0.35;

/** How a line is drawn. */
export interface StrokeOptions {
  /** Any whole number; the same one gives the same line. */
  readonly seed: number;
  /** Greatest displacement of a point in each direction, px. */
  readonly jitterPx?: number;
  /** Without the faint second line, where strokes stand close. */
  readonly plain?: boolean;
}

/** One line through these points, as SVG `<path>`s. */
export function pencilStroke(points: readonly Point[], { seed, jitterPx = JITTER_PX, plain = false }: StrokeOptions): string {
  const random = seededRandom(seed);
  const shaky = points.map(({ x, y }) => ({ x: x + (2 * random() - 1) * jitterPx, y: y + (2 * random() - 1) * jitterPx }));
  const main = `<path d="${smoothPath(shaky)}"/>`;
  if (plain) return main;
  const beside = shaky.map(({ x, y }) => ({ x: x + GHOST_OFFSET.x, y: y + GHOST_OFFSET.y }));
  return `${main}<path class="ghost" stroke-width="${GHOST_PX}" stroke-opacity="${GHOST_STRENGTH}" d="${smoothPath(beside)}"/>`;
}

/** A curve through all points: Catmull-Rom pieces (Catmull & Rom 1974) written as cubic Béziers. */
export function smoothPath(points: readonly Point[]): string {
  const at = (i: number): Point => points[Math.min(points.length - 1, Math.max(0, i))] ?? { x: 0, y: 0 };
  const handle = (from: Point, before: Point, after: Point, sign: number): string =>
    `${fixed(from.x + (sign * (after.x - before.x)) / 6)} ${fixed(from.y + (sign * (after.y - before.y)) / 6)}`;
  const pieces = points.slice(1).map((to, k) => {
    const [before, from, after] = [at(k - 1), at(k), at(k + 2)];
    return `C${handle(from, before, to, 1)} ${handle(to, from, after, -1)} ${fixed(to.x)} ${fixed(to.y)}`;
  });
  return `M${fixed(at(0).x)} ${fixed(at(0).y)}${pieces.join('')}`;
}
