/** An upright rectangle; y grows downwards as in SVG. */
export interface Box {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/** A point in the same plane. */
export interface Point {
  readonly x: number;
  readonly y: number;
}

/** The smallest box around these points. @throws RangeError without any point */
export function boxOf(points: readonly Point[]): Box {
  const [first, ...others] = points;
  if (!first) throw new RangeError('a box needs at least one point');
  const start: Box = { left: first.x, top: first.y, right: first.x, bottom: first.y };
  return others.reduce((box, { x, y }) => ({
    left: Math.min(box.left, x),
    top: Math.min(box.top, y),
    right: Math.max(box.right, x),
    bottom: Math.max(box.bottom, y),
  }), start);
}

/** The smallest box around these boxes; null without any. */
export function unionOf(boxes: readonly Box[]): Box | null {
  return boxes.length === 0 ? null : boxOf(boxes.flatMap(({ left, top, right, bottom }) => [{ x: left, y: top }, { x: right, y: bottom }]));
}

/** The box made larger on all sides. */
export function grown(box: Box, by: number): Box {
  return { left: box.left - by, top: box.top - by, right: box.right + by, bottom: box.bottom + by };
}

/** Its middle. */
export function middleOf(box: Box): Point {
  return { x: (box.left + box.right) / 2, y: (box.top + box.bottom) / 2 };
}
