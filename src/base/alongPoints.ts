import { firstIndex } from './collections.js';

/** A point of a line: where, and how much. */
export interface LinePoint {
  readonly x: number;
  readonly y: number;
}

/** The height of a line through points, rising in x, at any x: straight between two points, with slope 1 before the first and after the last; without any point x itself. */
export function alongPoints(points: readonly LinePoint[]): (x: number) => number {
  return (x) => {
    const next = firstIndex(points.length, (i) => (points[i]?.x ?? Infinity) > x);
    const [before, after] = [points[next - 1], points[next]];
    if (before === undefined) return after === undefined ? x : x - after.x + after.y;
    if (after === undefined) return x - before.x + before.y;
    return before.y + ((x - before.x) * (after.y - before.y)) / (after.x - before.x);
  };
}
