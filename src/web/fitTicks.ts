import { linearRegression } from 'simple-statistics';

/** A played moment and the written place it belongs to. */
export interface PlayedMoment {
  readonly timeS: number;
  readonly tick: number;
}

/**
 * Lays seconds on ticks by the straight line of least squares through played moments.
 * @returns seconds to ticks, or null where the moments do not span any time or run backwards
 */
export function fitTicks(moments: readonly PlayedMoment[]): ((timeS: number) => number) | null {
  if (new Set(moments.map(({ tick }) => tick)).size < 2) return null;
  const { m, b } = linearRegression(moments.map(({ timeS, tick }) => [timeS, tick]));
  return Number.isFinite(m) && m > 0 ? (timeS) => m * timeS + b : null;
}
