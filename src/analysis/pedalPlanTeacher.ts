/**
 * A pedal plan that the teacher has changed. What she left as it was keeps its source and its reason; what she set, moved or lengthened is
 * hers, and is asked for like a printed mark.
 */
import { barAtTick, ticksToCrotchets, type Score } from '../score/index.js';
import { notesIn } from './analyse.js';
import { basisOf } from './pedalPlan.js';
import { clearing } from './pedalPlanHarmony.js';
import { lastTick } from './pedalPlanPrinted.js';
import type { PedalEntry, PedalKind, PedalPlan, PlannedKind, TeachersPlan } from './pedalPlanTypes.js';
import { soundsOf, type Sound } from './sounds.js';
import type { Analysis } from './types.js';

/** The reason of what she set. */
const HERS = 'as you set it';

/** True for an entry that somebody asks for, in print or by hand; the others are proposals. */
export function isAsked({ source }: Pick<PedalEntry, 'source'>): boolean {
  return source !== 'harmony';
}

/** A plan as a teacher's own, before she has changed anything. */
export function plannedOf({ entries }: PedalPlan): TeachersPlan {
  return entries.map(({ barIndex, offset, kind }) => ({ barIndex, offset, kind: kind === 'down' || kind === 'change' ? 'pedal' : kind }));
}

/** The analysis with the teacher's plan in the place of the program's, teaching notes included (British words). */
export function withTeachersPlan(score: Score, analysis: Analysis, planned: TeachersPlan): Analysis {
  const changed = { ...analysis, pedalPlan: teachersPlan(score, analysis.pedalPlan, planned) };
  return { ...changed, notes: notesIn(score, changed, 'british') };
}

/** The program's plan changed by the teacher's; points that the score has no place for are left out. */
export function teachersPlan(score: Score, program: PedalPlan, planned: TeachersPlan): PedalPlan {
  const points = pointsOf(score, planned);
  if (points.length === 0) return program;
  const end = lastTick(score);
  const sounds = soundsOf(score);
  const ofProgram = new Map(program.entries.map((entry) => [entry.fromTick, entry]));
  const entries = points.map(({ tick, kind }, i): PedalEntry => {
    const toTick = points[i + 1]?.tick ?? end;
    const before = points[i - 1]?.kind;
    const foot = footOf(kind, before);
    const known = ofProgram.get(tick);
    if (known?.kind === foot && toTick <= known.toTick) return { ...known, toTick };
    const { barIndex, offsetTicks } = barAtTick(score, tick);
    const offset = ticksToCrotchets(score, offsetTicks);
    return {
      id: `pedal-${barIndex}-${Number(offset.toFixed(4))}`, fromTick: tick, toTick, barIndex, offset, kind: foot, source: 'teacher', reason: HERS,
      clearS: isDown(kind) && before !== undefined && isDown(before) ? clearing(bassAt(sounds, tick)) : null,
    };
  });
  return { entries, basis: basisOf(entries) };
}

/** A point by its written tick. */
export interface PlanPoint {
  readonly tick: number;
  readonly kind: PlannedKind;
}

/** The points in order, the first at the beginning, none that only repeats the one before. */
export function pointsOf(score: Pick<Score, 'bars' | 'ticksPerQuarter'>, planned: TeachersPlan): readonly PlanPoint[] {
  const placed = planned.flatMap(({ barIndex, offset, kind }): readonly PlanPoint[] => {
    const bar = score.bars[barIndex];
    const ticks = Math.round(offset * score.ticksPerQuarter);
    return bar === undefined || ticks < 0 || ticks >= Math.max(1, bar.lengthTicks) ? [] : [{ tick: bar.startTick + ticks, kind }];
  });
  return tidied(placed);
}

/** In order of time, one point a tick (the last one said), from the beginning on, without what changes nothing. */
export function tidied(points: readonly PlanPoint[]): readonly PlanPoint[] {
  const byTick = new Map(points.map((point) => [point.tick, point]));
  const sorted = [...byTick.values()].sort((a, b) => a.tick - b.tick);
  const first = sorted[0];
  if (first === undefined) return [];
  const whole: readonly PlanPoint[] = first.tick > 0 ? [{ tick: 0, kind: 'none' }, ...sorted] : sorted;
  return whole.reduce<readonly PlanPoint[]>((kept, point) => (changesSomething(point.kind, kept.at(-1)?.kind) ? [...kept, point] : kept), []);
}

/** False for a foot that is up already, by lifting or by playing dry. */
function changesSomething(kind: PlannedKind, before: PlannedKind | undefined): boolean {
  return before === undefined || isDown(kind) || isDown(before) || (kind === 'none' && before === 'up');
}

/** Whether the foot is down through a point. */
function isDown(kind: PlannedKind): boolean {
  return kind === 'pedal' || kind === 'ring';
}

/** What the foot does at a point: a press while it is down is a change. */
function footOf(kind: PlannedKind, before: PlannedKind | undefined): PedalKind {
  if (kind !== 'pedal') return kind;
  return before !== undefined && isDown(before) ? 'change' : 'down';
}

/** The lowest note that sounds at a tick, MIDI number; the highest there is where nothing sounds. */
function bassAt(sounds: readonly Sound[], tick: number): number {
  return sounds.reduce((low, { fromTick, toTick, midi }) => (fromTick <= tick && toTick > tick ? Math.min(low, midi) : low), 127);
}
