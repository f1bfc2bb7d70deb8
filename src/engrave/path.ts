import { boxOf, unionOf, type Box, type Point } from './box.js';
import { numbersOf } from './transform.js';

/** A cubic Bézier piece of a path; straight lines are given as one too. */
export type Cubic = readonly [Point, Point, Point, Point];

/** How many numbers each path command takes. */
const ARITY: Readonly<Record<string, number>> = { M: 2, L: 2, H: 1, V: 1, C: 6, S: 4, Q: 4, T: 2 };

/** Where the pen is while a path is read. */
interface Pen {
  readonly at: Point;
  readonly start: Point;
  /** Last control point, which `S` and `T` reflect. */
  readonly handle: Point;
}

/**
 * The pieces of an SVG path (`d`), absolute. Arcs are not among what the engraver draws and are passed over.
 * Reference: SVG 2, section 9.3.
 */
export function parsePath(d: string): readonly Cubic[] {
  const origin: Point = { x: 0, y: 0 };
  const pieces: Cubic[] = [];
  let pen: Pen = { at: origin, start: origin, handle: origin };
  for (const [, command = '', values = ''] of d.matchAll(/([a-df-z])([^a-df-z]*)/gi)) {
    for (const [letter, args] of calls(command, numbersOf(values))) {
      const [next, piece] = drawn(pen, letter, args);
      pen = next;
      if (piece) pieces.push(piece);
    }
  }
  return pieces;
}

/** The exact box of a path: end points and turning points of every piece; null where it draws nothing. */
export function pathBox(d: string): Box | null {
  return unionOf(parsePath(d).map(cubicBox));
}

/** The exact box of one piece. */
export function cubicBox(cubic: Cubic): Box {
  const times = [0, 1, ...turns(cubic.map(({ x }) => x)), ...turns(cubic.map(({ y }) => y))];
  return boxOf(times.map((t) => pointAt(cubic, t)));
}

/** Boxes along one piece, in `steps` parts, so that a long slur is not taken for the whole rectangle it spans. */
export function boxesAlong(cubic: Cubic, steps: number): readonly Box[] {
  const points = Array.from({ length: steps + 1 }, (_, i) => pointAt(cubic, i / steps));
  return points.slice(1).map((point, i) => boxOf([points[i] ?? point, point]));
}

/** One command with many numbers is many commands; a second pair after `M` is a line. */
function calls(command: string, values: readonly number[]): readonly (readonly [string, readonly number[]])[] {
  const arity = ARITY[command.toUpperCase()];
  if (!arity) return [[command, []]];
  const after = command === 'M' ? 'L' : command === 'm' ? 'l' : command;
  return Array.from({ length: Math.floor(values.length / arity) }, (_, i) => [i === 0 ? command : after, values.slice(i * arity, (i + 1) * arity)] as const);
}

/** One command: where the pen is after it and what it drew. */
function drawn(pen: Pen, letter: string, args: readonly number[]): readonly [Pen, Cubic | null] {
  const kind = letter.toUpperCase();
  if (kind === 'Z') return [{ ...pen, at: pen.start, handle: pen.start }, line(pen.at, pen.start)];
  const base = letter === kind ? { x: 0, y: 0 } : pen.at;
  const points = pointsOf(kind, args, { base, at: pen.at });
  const end = points.at(-1) ?? pen.at;
  if (kind === 'M') return [{ at: end, start: end, handle: end }, null];
  const piece = curve(pen, kind, points);
  return [{ at: end, start: pen.start, handle: handleOf(kind, piece, points) }, piece];
}

/** A command’s points in absolute terms. */
function pointsOf(kind: string, args: readonly number[], { base, at }: { readonly base: Point; readonly at: Point }): readonly Point[] {
  if (kind === 'H') return [{ x: base.x + (args[0] ?? 0), y: at.y }];
  if (kind === 'V') return [{ x: at.x, y: base.y + (args[0] ?? 0) }];
  return Array.from({ length: args.length / 2 }, (_, i) => ({ x: base.x + (args[2 * i] ?? 0), y: base.y + (args[2 * i + 1] ?? 0) }));
}

/** Any drawing command as a cubic piece. */
function curve(pen: Pen, kind: string, points: readonly Point[]): Cubic {
  const [p = pen.at, q = p, r = q] = points;
  if (kind === 'C') return [pen.at, p, q, r];
  if (kind === 'S') return [pen.at, mirrored(pen), p, q];
  if (kind === 'Q') return raised(pen.at, p, q);
  if (kind === 'T') return raised(pen.at, mirrored(pen), p);
  return line(pen.at, p);
}

/** The control point that a following `S` or `T` reflects. */
function handleOf(kind: string, piece: Cubic, points: readonly Point[]): Point {
  if (kind === 'C' || kind === 'S') return piece[2];
  return kind === 'Q' ? (points[0] ?? piece[3]) : piece[3];
}

/** The last control point seen from the other side of the pen. */
function mirrored({ at, handle }: Pen): Point {
  return { x: 2 * at.x - handle.x, y: 2 * at.y - handle.y };
}

/** A straight piece. */
function line(from: Point, to: Point): Cubic {
  return [from, from, to, to];
}

/** A quadratic piece as a cubic one. */
function raised(from: Point, control: Point, to: Point): Cubic {
  const towards = (end: Point): Point => ({ x: end.x + (2 / 3) * (control.x - end.x), y: end.y + (2 / 3) * (control.y - end.y) });
  return [from, towards(from), towards(to), to];
}

/** The point of a piece at time t, in Bernstein form. */
function pointAt([p, q, r, s]: Cubic, t: number): Point {
  const u = 1 - t;
  const mix = (a: number, b: number, c: number, d: number): number => u * u * u * a + 3 * u * u * t * b + 3 * u * t * t * c + t * t * t * d;
  return { x: mix(p.x, q.x, r.x, s.x), y: mix(p.y, q.y, r.y, s.y) };
}

/** Times in (0, 1) at which one coordinate of a piece turns: roots of its derivative. */
function turns([p = 0, q = 0, r = 0, s = 0]: readonly number[]): readonly number[] {
  const a = s - 3 * r + 3 * q - p;
  const b = 2 * (r - 2 * q + p);
  const c = q - p;
  const root = Math.sqrt(b * b - 4 * a * c);
  const found = Math.abs(a) < 1e-9 ? [-c / b] : [(-b + root) / (2 * a), (-b - root) / (2 * a)];
  return found.filter((t) => t > 0 && t < 1);
}
