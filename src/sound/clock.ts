import { alongPoints } from '../base/index.js';
import type { ClockPoint } from './types.js';

/** A version's time for any moment as played. */
export function clockOf(clock: readonly ClockPoint[]): (playedS: number) => number {
  return alongPoints(clock.map(({ playedS, versionS }) => ({ x: playedS, y: versionS })));
}
