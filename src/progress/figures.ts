/** The few numbers of a recording that mean something over the weeks. */
import type { Judgement } from '../judge/index.js';

/** Counts of one recording. */
export interface WeekFigures {
  /** Waits, stops and goings back. */
  readonly stops: number;
  /** Changes of harmony over which the pedal blurred, or caught the old sound. */
  readonly blurs: number;
}

/** Kinds of remark that are counted. */
const STOPS: ReadonlySet<string> = new Set(['stop', 'hesitation', 'goingBack']);
const BLURS: ReadonlySet<string> = new Set(['blurred', 'caught']);

/** Counts places, not remarks: one remark may name many. */
export function figuresOf({ observations }: Judgement): WeekFigures {
  const places = (kinds: ReadonlySet<string>): number => observations.filter(({ kind }) => kinds.has(kind)).reduce((sum, { places: at }) => sum + at.length, 0);
  return { stops: places(STOPS), blurs: places(BLURS) };
}
