/** Rings around written heads that another key was played for; heads too close for two rings share a taller one. */
import type { Point } from './box.js';
import type { Mark } from './compose.js';
import { ring, RING_REACH_PX, type MarkLabels } from './pencil.js';

/** A written head to be ringed. */
export interface RingedNote {
  readonly id: string;
  readonly head: Point;
  readonly labels: MarkLabels;
}

/** Heads of one chord stand within this of one another, px: a second is set off by a head's width. */
const CHORD_PX = 10;

/** Two rings nearer than this would cross, px from centre to centre. */
const CROSSING_PX = 2 * RING_REACH_PX - 2;

/** One ring for each run of close heads in a chord. */
export function ringMarks(notes: readonly RingedNote[]): readonly Mark[] {
  const runs: RingedNote[][] = [];
  for (const note of [...notes].sort((a, b) => a.head.y - b.head.y)) {
    const run = runs.find((others) => others.some((other) => crosses(other.head, note.head)));
    if (run === undefined) runs.push([note]);
    else run.push(note);
  }
  return runs.flatMap(ringAround);
}

/** True where a ring around each would cross the other. */
function crosses(a: Point, b: Point): boolean {
  return Math.abs(a.x - b.x) < CHORD_PX && Math.abs(a.y - b.y) < CROSSING_PX;
}

/** A ring from the highest to the lowest head of a run. */
function ringAround(run: readonly RingedNote[]): readonly Mark[] {
  const [first, last] = [run[0], run.at(-1)];
  if (first === undefined || last === undefined) return [];
  const centre = { x: (first.head.x + last.head.x) / 2, y: (first.head.y + last.head.y) / 2 };
  const tallerPx = (last.head.y - first.head.y) / 2;
  return [{ svg: ring(centre, together(run, first.labels), tallerPx), top: first.head.y - RING_REACH_PX, bottom: last.head.y + RING_REACH_PX }];
}

/** One title and one list of note ids for all heads of a run. */
function together(run: readonly RingedNote[], labels: MarkLabels): MarkLabels {
  if (run.length === 1) return labels;
  return { ...labels, title: run.map(({ labels: { title } }) => title).join('; '), data: { ...labels.data, notes: run.map(({ id }) => id).join(' ') } };
}
