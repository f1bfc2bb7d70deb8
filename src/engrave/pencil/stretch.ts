import { markGroup, type MarkLabels } from './mark.js';
import { pencilStroke } from './stroke.js';

/** Height and length of a wave and depth of the hooks at both ends, px. */
const WAVE_HEIGHT_PX = 2.3;
const WAVE_LENGTH_PX = 11;
const HOOK_PX = 8;

/** Points to a wave; six are enough for a round line. */
const POINTS_A_WAVE = 6;

/** From the first to the last affected note. */
export interface StretchPlace {
  readonly fromX: number;
  readonly toX: number;
  /** Middle of the wave. */
  readonly y: number;
}

/** A wavy bracket over a stretch of notes. */
export function stretch({ fromX, toX, y }: StretchPlace, labels: MarkLabels): string {
  const waves = Math.max(1, Math.round((toX - fromX) / WAVE_LENGTH_PX));
  const steps = waves * POINTS_A_WAVE;
  const wave = Array.from({ length: steps + 1 }, (_, i) => ({
    x: fromX + ((toX - fromX) * i) / steps,
    y: y - (WAVE_HEIGHT_PX / 2) * Math.sin((2 * Math.PI * i) / POINTS_A_WAVE),
  }));
  const points = [{ x: fromX, y: y + HOOK_PX }, { x: fromX - 0.5, y: y + HOOK_PX / 2 }, ...wave, { x: toX + 0.5, y: y + HOOK_PX / 2 }, { x: toX, y: y + HOOK_PX }];
  return markGroup('stretch', labels, pencilStroke(points, { seed: labels.seed, jitterPx: 0.25 }));
}
