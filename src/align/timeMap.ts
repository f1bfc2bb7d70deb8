/**
 * The question: when should a written note have sounded, in this stretch, as this player goes?
 * Conventions: seconds against unfolded ticks; one anchor a slot that was played, grace notes left out.
 * Method: the median onset of each played slot, made monotone by pooling adjacent violators (isotonic regression, Barlow
 * et al. 1972, from memory), straight lines between, the local slope beyond the ends. Our own rule.
 * It does not smooth: a late chord is expected late.
 */
import { firstIndex } from '../base/index.js';
import { medianSorted } from 'simple-statistics';

/** Expected seconds along one stretch. */
export interface TimeMap {
  /** Expected onset, seconds. */
  at(tick: number): number;
  /** Seconds a tick lasts here, from the anchors around. */
  secondsPerTick(tick: number): number;
}

/** Anchors on either side that make the local slope. */
const SLOPE_REACH = 6;

interface Anchor {
  readonly tick: number;
  readonly timeS: number;
}

// Pool adjacent violators: the closest non-decreasing times, equal weights.
function monotone(anchors: readonly Anchor[]): Anchor[] {
  const blocks: { sum: number; ticks: number[] }[] = [];
  for (const { tick, timeS } of anchors) {
    blocks.push({ sum: timeS, ticks: [tick] });
    for (;;) {
      const last = blocks.at(-1);
      const before = blocks.at(-2);
      if (!last || !before || before.sum / before.ticks.length <= last.sum / last.ticks.length) break;
      blocks.pop();
      before.sum += last.sum;
      before.ticks.push(...last.ticks);
    }
  }
  return blocks.flatMap(({ sum, ticks }) => ticks.map((tick) => ({ tick, timeS: sum / ticks.length })));
}

function anchorsOf(points: ReadonlyMap<number, readonly number[]>): Anchor[] {
  const anchors = [...points].map(([tick, times]) => ({ tick, timeS: medianSorted([...times].sort((a, b) => a - b)) }));
  return monotone(anchors.sort((a, b) => a.tick - b.tick));
}

/**
 * @param points onset seconds by unfolded tick, at least one
 * @param fallbackSecondsPerTick slope where a single anchor gives none
 */
export function timeMapOf(points: ReadonlyMap<number, readonly number[]>, fallbackSecondsPerTick: number): TimeMap {
  const anchors = anchorsOf(points);
  const indexBefore = (tick: number): number => firstIndex(anchors.length, (i) => (anchors[i]?.tick ?? 0) > tick) - 1;
  const slope = (center: number): number => {
    const a = anchors[Math.max(0, center - SLOPE_REACH)];
    const b = anchors[Math.min(anchors.length - 1, center + SLOPE_REACH)];
    return a && b && b.tick > a.tick && b.timeS > a.timeS ? (b.timeS - a.timeS) / (b.tick - a.tick) : fallbackSecondsPerTick;
  };
  return {
    at(tick) {
      const i = indexBefore(tick);
      const before = anchors[i];
      const after = anchors[i + 1];
      if (before && after) return before.timeS + ((after.timeS - before.timeS) * (tick - before.tick)) / (after.tick - before.tick);
      if (before) return before.timeS + (tick - before.tick) * slope(i);
      return after ? after.timeS - (after.tick - tick) * slope(0) : 0;
    },
    secondsPerTick: (tick) => slope(Math.max(0, indexBefore(tick))),
  };
}
