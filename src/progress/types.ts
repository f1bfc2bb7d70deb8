/** The records of a comparison of two recordings of one piece. */
import type { Aspect, FoundPlace } from '../judge/index.js';
import type { Hand } from '../measure/index.js';

/** Which way something went. A fault that is new is worse. */
export type Direction = 'better' | 'worse';

/** One thing that changed beyond the player's own scatter. */
export interface Change {
  readonly aspect: Aspect;
  /** What it is about, as in observations. */
  readonly kind: string;
  readonly direction: Direction;
  readonly hand: Hand | null;
  /** In order of the score, at least one; of the recording in which the fault is. */
  readonly places: readonly FoundPlace[];
  /** 0-1: how much a teacher would care; it ranks. */
  readonly weight: number;
  readonly text: string;
}

/** What changed from an earlier to a later recording. */
export interface Comparison {
  /** Heaviest first. */
  readonly changes: readonly Change[];
  /** Aspects that were measured in both and did not change. */
  readonly unchanged: readonly Aspect[];
  /** What could not be compared and why, as sentences. */
  readonly notCompared: readonly string[];
  /** Bars that both recordings hold, as places in `Score.bars`. */
  readonly bars: readonly number[];
}
