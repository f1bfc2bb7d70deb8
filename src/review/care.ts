/** What teachers care about, and what a recording is for: how much an observation is worth saying. */
import type { Aspect, Observation } from '../judge/index.js';
import type { Purpose } from './types.js';

/**
 * How readily a teacher remarks on an aspect, 0-1. From counts of what four instructors wrote about 83 recordings of
 * easy pieces (rhythm 39 %, notes 34, touch 30, dynamics 27, steadiness 22, balance 20, tempo 18 and its ending 16, pedal 12,
 * octaves 5, repeats 3, ties and long notes 3): the fourth root of each share by that of rhythm, so that a gross fault in a rare aspect
 * still comes before a slight one in a common one.
 */
const CARE: Readonly<Record<Aspect, number>> = {
  rhythm: 1, notes: 0.97, touch: 0.94, dynamics: 0.91, pulse: 0.87, balance: 0.85, tempo: 0.82, pedal: 0.74, lengths: 0.6, route: 0.6,
};

/** What each purpose makes of an aspect; 1 where nothing is said. Common practice, no source: first the notes and the time, then touch and sound. */
const BY_PURPOSE: Readonly<Record<Purpose, Readonly<Partial<Record<Aspect, number>>>>> = {
  firstReading: { notes: 1.15, rhythm: 1.1, route: 0.4, pulse: 0.7, tempo: 0.4, touch: 0.6, pedal: 0.5, dynamics: 0.4, balance: 0.4 },
  buildingUp: { route: 0.9, tempo: 0.8, dynamics: 0.8, balance: 0.8, pedal: 0.9 },
  polishing: { touch: 1.1, pedal: 1.15, dynamics: 1.15, balance: 1.15 },
  runThrough: {},
  fromMemory: { notes: 1.1, route: 1.2, pulse: 1.1 },
};

/** What looking at something this week adds. */
const LOOKED_AT = 1.3;

/** What it adds that the analysis of the piece expected the place to go wrong: the remark has a known remedy. */
const EXPECTED = 1.1;

/** What is taken into account. */
export interface Caring {
  readonly purpose: Purpose;
  readonly lookAt: readonly Aspect[];
  /** Bars that the analysis named as pitfalls, as places in `Score.bars`. */
  readonly pitfallBars: ReadonlySet<number>;
}

/** A slow tempo, which first reading and building up ask for: nobody is told of it there. */
const SLOW: ReadonlySet<string> = new Set(['slow', 'slowPractice']);
const SLOW_BY_PURPOSE: readonly Purpose[] = ['firstReading', 'buildingUp'];

/** Going back is counted by those instructors among steadiness and hesitations. */
const GOING_BACK = 'goingBack';

/** How much an observation is worth saying, 0-1. */
export function worthOf(one: Observation, { purpose, lookAt, pitfallBars }: Caring): number {
  if (one.aspect === 'tempo' && SLOW.has(one.kind) && SLOW_BY_PURPOSE.includes(purpose)) return 0;
  const expected = one.places.some(({ fromBar, toBar }) => toBar - fromBar <= 1 && (pitfallBars.has(fromBar) || pitfallBars.has(toBar)));
  const factor = CARE[one.kind === GOING_BACK ? 'pulse' : one.aspect] * (BY_PURPOSE[purpose][one.aspect] ?? 1) * (lookAt.includes(one.aspect) ? LOOKED_AT : 1) * (expected ? EXPECTED : 1);
  return Math.min(1, one.weight * factor);
}
