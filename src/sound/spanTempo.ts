import { median } from 'simple-statistics';
import { bothHands, pulseLines, type PulsePoint } from '../measure/index.js';
import type { SoundInput } from './types.js';

/** The written moments that were struck in one stretch, in order, grace notes and ornaments left out. */
export type StretchPoints = readonly PulsePoint[];

/** Those of every stretch of the route. */
export function stretchPoints(input: SoundInput): readonly StretchPoints[] {
  return pulseLines(input).map((lines) => rising(bothHands(lines)));
}

/** Only points whose times rise with their ticks: hands far apart may cross. */
function rising(points: readonly PulsePoint[]): StretchPoints {
  const kept: PulsePoint[] = [];
  for (const point of points) if (point.onsetS > (kept.at(-1)?.onsetS ?? -Infinity)) kept.push(point);
  return kept;
}

/** When a tick was reached, straight between the moments on both sides; outside of them by the speed given. */
export function reachedAt(points: StretchPoints, tick: number, secondsATick: number): number {
  const next = points.findIndex((point) => point.tick >= tick);
  const [before, after] = [points[next - 1], next === -1 ? undefined : points[next]];
  if (after === undefined) return (points.at(-1)?.onsetS ?? 0) + (tick - (points.at(-1)?.tick ?? tick)) * secondsATick;
  if (before === undefined) return after.onsetS - (after.tick - tick) * secondsATick;
  return before.onsetS + ((tick - before.tick) * (after.onsetS - before.onsetS)) / (after.tick - before.tick);
}

/** Seconds a tick at a visit of a stretch: the middle tempo under its mark, as she played it; waits do not count. */
export function middleSpeed({ score, measures }: SoundInput, points: StretchPoints, place: { readonly stretch: number; readonly visitIndex: number }): number {
  const span = measures.pulse.spans.find(({ stretch, fromVisit, toVisit }) => stretch === place.stretch && fromVisit <= place.visitIndex && place.visitIndex <= toVisit);
  if (span?.played.measured === true) return 60 / span.played.value / score.ticksPerQuarter;
  const steps = points.slice(1).map(({ tick, onsetS }, i) => (onsetS - (points[i]?.onsetS ?? 0)) / (tick - (points[i]?.tick ?? 0)));
  return steps.length > 0 ? median(steps) : USUAL_CROTCHET_S / score.ticksPerQuarter;
}

/** Speed of a single chord, of which nothing can be told, seconds a crotchet. */
const USUAL_CROTCHET_S = 0.75;
