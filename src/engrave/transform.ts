import { boxOf, type Box, type Point } from './box.js';

/** An affine map: x' = a·x + c·y + e, y' = b·x + d·y + f. */
export interface Transform {
  readonly a: number;
  readonly b: number;
  readonly c: number;
  readonly d: number;
  readonly e: number;
  readonly f: number;
}

/** The map that changes nothing. */
export const IDENTITY: Transform = { a: 1, b: 0, c: 0, d: 1, e: 0, f: 0 };

/** First `inner`, then `outer`. */
export function composed(outer: Transform, inner: Transform): Transform {
  return {
    a: outer.a * inner.a + outer.c * inner.b,
    b: outer.b * inner.a + outer.d * inner.b,
    c: outer.a * inner.c + outer.c * inner.d,
    d: outer.b * inner.c + outer.d * inner.d,
    e: outer.a * inner.e + outer.c * inner.f + outer.e,
    f: outer.b * inner.e + outer.d * inner.f + outer.f,
  };
}

/** Where a point comes to lie. */
export function moved({ a, b, c, d, e, f }: Transform, { x, y }: Point): Point {
  return { x: a * x + c * y + e, y: b * x + d * y + f };
}

/** The upright box around a moved box. */
export function movedBox(transform: Transform, { left, top, right, bottom }: Box): Box {
  const corners = [{ x: left, y: top }, { x: right, y: top }, { x: left, y: bottom }, { x: right, y: bottom }];
  return boxOf(corners.map((corner) => moved(transform, corner)));
}

/** Reads an SVG `transform` of `translate`, `scale` and `rotate`, the three that the engraver writes; others count as nothing. */
export function parseTransform(text: string | undefined): Transform {
  const steps = [...(text ?? '').matchAll(/([a-z]+)\(([^)]*)\)/gi)];
  return steps.reduce((sum, [, kind, values]) => composed(sum, single(kind ?? '', numbersOf(values ?? ''))), IDENTITY);
}

/** All numbers of an SVG attribute in order. */
export function numbersOf(text: string): readonly number[] {
  return (text.match(/[-+]?(?:\d+\.?\d*|\.\d+)(?:e[-+]?\d+)?/gi) ?? []).map(Number);
}

/** One step of a transform attribute. */
function single(kind: string, [p = 0, q, r]: readonly number[]): Transform {
  if (kind === 'translate') return { ...IDENTITY, e: p, f: q ?? 0 };
  if (kind === 'scale') return { ...IDENTITY, a: p, d: q ?? p };
  return kind === 'rotate' ? rotation(p, { x: q ?? 0, y: r ?? 0 }) : IDENTITY;
}

/** A turn about a point. */
function rotation(degrees: number, { x, y }: Point): Transform {
  const cos = Math.cos((degrees * Math.PI) / 180);
  const sin = Math.sin((degrees * Math.PI) / 180);
  return { a: cos, b: sin, c: -sin, d: cos, e: x - cos * x + sin * y, f: y - sin * x - cos * y };
}
