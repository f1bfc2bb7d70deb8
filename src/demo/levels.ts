/**
 * How loud a place is asked to be: dynamic marks as key velocities, hairpins as straight lines between them.
 * Velocities: the W3C's own examples of MusicXML `sound dynamics` (pp 41, p 55, mp 70, mf 84, f 100, ff 111 per cent of
 * 90), rounded.
 */
import { filled, parseHand } from './notation.js';
import type { Dynamic, Mark, Piece } from './piece.js';

const VELOCITIES: Readonly<Record<Dynamic, number>> = { pp: 37, p: 50, mp: 63, mf: 76, f: 90, ff: 100 };
/** What a hairpin without a mark at its end changes, velocity units: one step of the marks above. */
const HAIRPIN_STEP = 13;
/** How far after a hairpin's end its goal may stand, divisions: a bar and a little. */
const GOAL_WITHIN = 18;

/** A level that holds from a place on, or the start of a straight line to the next one. */
interface Point {
  /** Divisions along the written bars. */
  readonly at: number;
  readonly velocity: number;
  /** True where a line leads to the next point, false where the level holds until then. */
  readonly line: boolean;
}

/** A mark at its place along the written bars, divisions. */
interface PlacedMark {
  readonly at: number;
  readonly mark: Mark;
}

/** Velocity asked for at each place of the written bars. */
export type Levels = (barIndex: number, division: number) => number;

/** The level curve of a piece; with `hairpins` false each mark holds until the next. */
export function levelsOf(piece: Piece, hairpins: boolean): Levels {
  const starts = barStarts(piece);
  const marks = piece.bars.flatMap((bar, i) => bar.marks.filter(({ kind }) => hairpins || kind !== 'hairpin').map((mark) => ({ at: (starts[i] ?? 0) + mark.at, mark }))).sort((a, b) => a.at - b.at);
  const points = marks.reduce<readonly Point[]>((done, placed) => [...done, ...pointsOf(placed, marks, done.at(-1)?.velocity ?? VELOCITIES.mf)], []);
  return (barIndex, division) => velocityAt(points, (starts[barIndex] ?? 0) + division);
}

/** Divisions at which each bar starts. */
function barStarts(piece: Piece): readonly number[] {
  let at = 0;
  return piece.bars.map((bar) => {
    const start = at;
    at += filled(parseHand(bar.right));
    return start;
  });
}

/** A dynamic mark is one point, a hairpin two; `velocity` is the level in force before it. */
function pointsOf({ at, mark }: PlacedMark, marks: readonly PlacedMark[], velocity: number): readonly Point[] {
  if (mark.kind === 'dynamics') return [{ at, velocity: VELOCITIES[mark.text], line: false }];
  if (mark.kind !== 'hairpin' || mark.type === 'stop') return [];
  const end = marks.find((each) => each.at > at && each.mark.kind === 'hairpin' && each.mark.type === 'stop')?.at ?? at;
  const goal = marks.find((each) => each.at >= end && each.at <= end + GOAL_WITHIN && each.mark.kind === 'dynamics');
  const step = mark.type === 'crescendo' ? HAIRPIN_STEP : -HAIRPIN_STEP;
  const asked = goal?.mark.kind === 'dynamics' ? VELOCITIES[goal.mark.text] : velocity;
  // a mark on the other side is no goal of this hairpin: the level turns round there
  const reached = Math.sign(asked - velocity) === Math.sign(step) ? asked : velocity + step;
  return [{ at, velocity, line: true }, { at: end, velocity: reached, line: false }];
}

/** The level at a place: the last point's, or on the line from it to the next. */
function velocityAt(points: readonly Point[], at: number): number {
  const next = points.findIndex((point) => point.at > at);
  const before = points[next < 0 ? points.length - 1 : next - 1];
  if (!before) return VELOCITIES.mf;
  const after = next < 0 ? undefined : points[next];
  if (!before.line || !after) return before.velocity;
  return before.velocity + ((at - before.at) / (after.at - before.at)) * (after.velocity - before.velocity);
}
