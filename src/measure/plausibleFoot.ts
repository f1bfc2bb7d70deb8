/*
 * The teacher's question: is this what the foot did, or what the instrument made of it?
 *
 * Conventions: controller values over time, as in `Recording.sustain`.
 * Method: a pedal that jumps up and is down again sooner than a foot can move was lifted all the same: somebody heard or felt a change. It is
 *   taken to have lasted as long as a quick one does. Slopes, as continuous pedals send them, stay as they are.
 * Source: our own rule. Up and down again takes a foot about a tenth of a second at the least (common practice).
 * What it does not tell: how long it really was.
 */
import type { ControlPoint } from '../recording/index.js';
import { PEDAL_HOLDS } from './soundEnds.js';

/** No foot goes up and down again in less (<) than this, seconds. */
const LEAST_LIFT_S = 0.07;

/** As long as a quick change lasts, seconds: the middle register is cleared by then. */
const QUICK_LIFT_S = 0.15;

/** Values up to this (<=) are all the way up. */
const UP = 3;

/** The pedal with lifts that no foot can make drawn out to quick ones. */
export function plausibleFoot(sustain: readonly ControlPoint[]): readonly ControlPoint[] {
  return sustain.map((point, i): ControlPoint => {
    const [before, lift, after] = [sustain[i - 2], sustain[i - 1], sustain[i + 1]];
    const jumped = before !== undefined && lift !== undefined && before.value >= PEDAL_HOLDS && lift.value <= UP && point.value >= PEDAL_HOLDS;
    if (!jumped || point.timeS - lift.timeS >= LEAST_LIFT_S) return point;
    return { ...point, timeS: Math.max(point.timeS, Math.min(lift.timeS + QUICK_LIFT_S, after?.timeS ?? Infinity)) };
  });
}
