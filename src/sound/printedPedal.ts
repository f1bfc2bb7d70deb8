import type { Stretch } from '../align/index.js';
import type { ControlPoint } from '../recording/index.js';
import type { SoundInput } from './types.js';

/** When a tick of one stretch comes, seconds. */
export type PrintedClock = (tick: number) => number;

/** A pedal all the way down. */
const DOWN = 127;

/** Time the dampers are given where the plan names none, and the pedal comes so long after its sound, seconds. */
const CLEAR_S = 0.2;
const AFTER_SOUND_S = 0.05;

/** Where the pedal is played. */
export interface PedalStretch {
  readonly route: Stretch;
  readonly at: PrintedClock;
  /** Unfolded ticks of what was played, both inclusive. */
  readonly fromTick: number;
  readonly toTick: number;
}

/** The printed pedal over one stretch of the route; it is up where the stretch ends. */
export function printedPedal({ score, analysis }: Pick<SoundInput, 'score' | 'analysis'>, { route, at, fromTick, toTick }: PedalStretch): readonly ControlPoint[] {
  const points = score.order.slice(route.fromVisit, route.toVisit + 1).flatMap((visit) => {
    const bar = score.bars[visit.barIndex];
    if (bar === undefined) return [];
    const own = analysis.pedalPlan.entries.filter((entry) => entry.source === 'printed' && entry.fromTick >= bar.startTick && entry.fromTick < bar.startTick + bar.lengthTicks);
    return own.flatMap((entry): readonly ControlPoint[] => {
      const tick = entry.fromTick - bar.startTick + visit.startTick;
      if (tick < fromTick || tick > toTick) return [];
      const startS = at(tick);
      if (entry.kind === 'up' || entry.kind === 'none') return [{ timeS: startS, value: 0 }];
      const pressS = startS + (entry.kind === 'change' ? (entry.clearS ?? CLEAR_S) : AFTER_SOUND_S);
      const up = { timeS: at(tick + entry.toTick - entry.fromTick), value: 0 };
      return [...(entry.kind === 'change' ? [{ timeS: startS, value: 0 }] : []), ...(pressS < up.timeS ? [{ timeS: pressS, value: DOWN }, up] : [])];
    });
  });
  return points.toSorted((a, b) => a.timeS - b.timeS || b.value - a.value);
}
