/**
 * One change of a teacher to her pedal plan: set something from a place on, move a point, take one away. A plan goes in, a plan comes
 * out; nothing is changed in place, so that every state can be kept and come back.
 */
import { InputError } from '../base/index.js';
import { barAtTick, beatTicks, ticksToCrotchets, type Score } from '../score/index.js';
import { pointsOf, tidied, type PlanPoint } from './pedalPlanTeacher.js';
import { lastTick } from './pedalPlanPrinted.js';
import type { PlannedKind, TeachersPlan } from './pedalPlanTypes.js';

/** A change. Ticks are written ticks. */
export type PlanEdit =
  /** From a place on, up to another (exclusive) or, where that is null, to the next point. */
  | { readonly act: 'set'; readonly atTick: number; readonly kind: PlannedKind; readonly untilTick: number | null }
  | { readonly act: 'move'; readonly atTick: number; readonly toTick: number }
  | { readonly act: 'remove'; readonly atTick: number };

/**
 * The plan after a change.
 * @throws InputError code `not-found` where nothing is planned at the place, `bad-value` where a point would pass another one or leave the piece
 */
export function editPlan(score: Score, planned: TeachersPlan, edit: PlanEdit): TeachersPlan {
  const points = pointsOf(score, planned);
  return tidied(edited(score, points, edit)).map(({ tick, kind }) => {
    const { barIndex, offsetTicks } = barAtTick(score, tick);
    return { barIndex, offset: ticksToCrotchets(score, offsetTicks), kind };
  });
}

/** The points after a change. */
function edited(score: Score, points: readonly PlanPoint[], edit: PlanEdit): readonly PlanPoint[] {
  switch (edit.act) {
    case 'set': return withSet(score, points, edit);
    case 'move': return withMoved(score, points, edit);
    case 'remove': return points.filter((point) => point !== removable(points, edit.atTick));
  }
}

/** Something set over a stretch: what was planned in it goes, what held at its end goes on there. */
function withSet(score: Score, points: readonly PlanPoint[], { atTick, kind, untilTick }: Extract<PlanEdit, { act: 'set' }>): readonly PlanPoint[] {
  checkInside(score, atTick);
  const end = untilTick === null ? atTick + 1 : Math.min(untilTick, lastTick(score));
  if (end <= atTick) throw new InputError('bad-value', 'The pedal has to last for a while: choose an end after the beginning.');
  const outside = points.filter(({ tick }) => tick < atTick || tick >= end);
  const held = points.findLast(({ tick }) => tick <= end - 1);
  const goesOn = untilTick !== null && held !== undefined && end < lastTick(score) && !points.some(({ tick }) => tick === end);
  return [...outside, { tick: atTick, kind }, ...(goesOn ? [{ tick: end, kind: held.kind }] : [])];
}

/** A point moved between its neighbours. */
function withMoved(score: Score, points: readonly PlanPoint[], { atTick, toTick }: Extract<PlanEdit, { act: 'move' }>): readonly PlanPoint[] {
  checkInside(score, toTick);
  const moved = removable(points, atTick);
  const i = points.indexOf(moved);
  const [before, after] = [points[i - 1]?.tick ?? 0, points[i + 1]?.tick ?? lastTick(score)];
  if (toTick <= before || toTick >= after) throw new InputError('bad-value', 'A change can be moved as far as the one before and the one after it. Take those away first.');
  return points.map((point) => (point === moved ? { ...moved, tick: toTick } : point));
}

/** The point at a tick, which must not be the beginning of the piece. */
function removable(points: readonly PlanPoint[], tick: number): PlanPoint {
  const found = points.find((point) => point.tick === tick);
  if (found === undefined) throw new InputError('not-found', 'Nothing is planned at this place any more. Open the page again.');
  if (found === points[0]) throw new InputError('bad-value', 'The plan begins with the piece: what the foot does there can be changed, but it stays there.');
  return found;
}

/** @throws InputError code `bad-value` */
function checkInside(score: Score, tick: number): void {
  if (!Number.isInteger(tick) || tick < 0 || tick >= lastTick(score)) throw new InputError('bad-value', 'This place is not in the piece.');
}

/** Written ticks where a change can be put: every beat and every onset, in order. */
export function planTicks(score: Pick<Score, 'bars' | 'notes' | 'ticksPerQuarter'>): readonly number[] {
  const beats = score.bars.flatMap((bar) => {
    const beat = beatTicks(score, bar);
    // an upbeat counts as the end of the full bar that it stands for
    const lead = bar.implicit ? Math.max(0, bar.nominalTicks - bar.lengthTicks) % beat : 0;
    const first = lead === 0 ? 0 : beat - lead;
    const later = Array.from({ length: Math.max(0, Math.ceil((bar.lengthTicks - first) / beat)) }, (_, i) => bar.startTick + first + i * beat);
    return [bar.startTick, ...later];
  });
  const onsets = score.notes.flatMap(({ grace, onsetTick }) => (grace === null ? [onsetTick] : []));
  return [...new Set([...beats, ...onsets])].sort((a, b) => a - b);
}
