import type { Point } from '../box.js';
import { markGroup, type MarkLabels } from './mark.js';
import { pencilStroke } from './stroke.js';

/** Half axes of the ring, px: clear of a note-head of 9 × 7.6 px all round. */
const HALF_WIDTH_PX = 9.6;
const HALF_HEIGHT_PX = 8.4;

/** Lean of the ellipse and where the hand begins and ends, degrees; it overlaps itself by 40. */
const TILT_DEG = -11;
const FROM_DEG = -70;
const SWEEP_DEG = 400;

/** Share by which the hand drifts outwards on its way round. */
const DRIFT = 0.09;

/** Points along the way: one to 18 degrees. */
const POINTS = 22;

/** How far a ring reaches from its centre, px. */
export const RING_REACH_PX = 11;

/** A ring around a note-head: this note. @param tallerPx how much higher and lower it reaches to take in a chord */
export function ring(centre: Point, labels: MarkLabels, tallerPx = 0): string {
  const points = Array.from({ length: POINTS }, (_, i) => pointOnRing(centre, i / (POINTS - 1), tallerPx));
  return markGroup('ring', labels, pencilStroke(points, { seed: labels.seed, jitterPx: 0.25 }));
}

/** A point of the tilted ellipse at a share of the way round. */
function pointOnRing(centre: Point, share: number, tallerPx: number): Point {
  const angle = radians(FROM_DEG + SWEEP_DEG * share);
  const tilt = radians(TILT_DEG);
  const size = 1 - DRIFT / 2 + DRIFT * share;
  const x = HALF_WIDTH_PX * size * Math.cos(angle);
  const y = (HALF_HEIGHT_PX + tallerPx) * size * Math.sin(angle);
  return { x: centre.x + x * Math.cos(tilt) - y * Math.sin(tilt), y: centre.y + x * Math.sin(tilt) + y * Math.cos(tilt) };
}

/** Degrees as radians. */
function radians(degrees: number): number {
  return (degrees * Math.PI) / 180;
}
