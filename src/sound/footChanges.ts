import { firstIndex } from '../base/index.js';
import type { ControlPoint } from '../recording/index.js';

/** The foot held at one value for a time; `toS` is exclusive. */
export interface FootHeld {
  readonly fromS: number;
  readonly toS: number;
  /** 0-127. */
  readonly value: number;
}

/** Where a pedal stands at a moment; up before its first point. */
export function pedalAt(points: readonly ControlPoint[], timeS: number): number {
  const next = firstIndex(points.length, (i) => (points[i]?.timeS ?? Infinity) > timeS);
  return points[next - 1]?.value ?? 0;
}

/** The curve with the foot held for some time; outside of that it is the same, point by point. */
export function withFoot(points: readonly ControlPoint[], { fromS, toS, value }: FootHeld): readonly ControlPoint[] {
  if (toS <= fromS) return points;
  const before = points.filter(({ timeS }) => timeS < fromS);
  const after = points.filter(({ timeS }) => timeS >= toS);
  const held = pedalAt(points, fromS) === value && !points.some(({ timeS }) => timeS === fromS) ? [] : [{ timeS: fromS, value }];
  const back = pedalAt(points, toS);
  const resumes = after[0]?.timeS === toS || back === value ? [] : [{ timeS: toS, value: back }];
  return [...before, ...held, ...resumes, ...after];
}
