import { firstIndex } from '../base/index.js';
import type { ClockPoint } from './types.js';

/** A version's time for any moment as played. */
export function clockOf(clock: readonly ClockPoint[]): (playedS: number) => number {
  return (playedS) => {
    const next = firstIndex(clock.length, (i) => (clock[i]?.playedS ?? Infinity) > playedS);
    const [before, after] = [clock[next - 1], clock[next]];
    if (before === undefined) return playedS + (after === undefined ? 0 : after.versionS - after.playedS);
    if (after === undefined) return playedS - before.playedS + before.versionS;
    return before.versionS + ((playedS - before.playedS) * (after.versionS - before.versionS)) / (after.playedS - before.playedS);
  };
}
