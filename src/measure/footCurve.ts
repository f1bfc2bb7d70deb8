/*
 * The teacher's question: how far are the dampers off the strings, and when did the foot move?
 *
 * Conventions: seconds; `contact` is 1 where the dampers lie on the strings and 0 where they are clear of them.
 * Method: half pedal is a curve: contact falls evenly from controller value 32 to 64, told in eighths so that a continuous pedal
 *   makes few steps. The foot counts as down from the middle of that range on.
 * Source: 64 and more is "on" (MIDI 1.0); no figure for half pedal is published, 32 is our own rule (see soundEnds.ts).
 * What it does not tell: where the dampers of one instrument really begin to lift.
 */
import { firstIndex } from '../base/index.js';
import type { ControlPoint } from '../recording/index.js';
import { PEDAL_HOLDS, PEDAL_LINGERS } from './soundEnds.js';

/** Steps of contact between lying on the strings and clear of them. */
const STEPS = 8;

/** Controller value from which (>=) the foot counts as down: half of the way. */
export const FOOT_DOWN = (PEDAL_HOLDS + PEDAL_LINGERS) / 2;

/** Contact of the dampers from this moment on. */
export interface Contact {
  readonly timeS: number;
  readonly contact: number;
}

/** A time during which the foot was down; `toS` is exclusive. */
export interface FootDown {
  readonly fromS: number;
  readonly toS: number;
  /** Highest value in it, 0-127. */
  readonly depth: number;
}

/** The dampers over time: a step only where it changes, the first at minus infinity. */
export function contacts(sustain: readonly ControlPoint[]): readonly Contact[] {
  const steps: Contact[] = [{ timeS: -Infinity, contact: 1 }];
  for (const { timeS, value } of sustain) {
    const contact = contactOf(value);
    if (steps.at(-1)?.contact !== contact) steps.push({ timeS, contact });
  }
  return steps;
}

/** Contact at a controller value, in eighths. */
export function contactOf(value: number): number {
  const lifted = (value - PEDAL_LINGERS) / (PEDAL_HOLDS - PEDAL_LINGERS);
  return Math.round(STEPS * (1 - Math.min(1, Math.max(0, lifted)))) / STEPS;
}

/** Every time that the foot was down, in order; one still down at the end lasts to `endS`. */
export function footDowns(sustain: readonly ControlPoint[], endS: number): readonly FootDown[] {
  const downs: FootDown[] = [];
  let sinceS: number | null = null;
  let depth = 0;
  for (const { timeS, value } of sustain) {
    if (value >= FOOT_DOWN) {
      depth = sinceS === null ? value : Math.max(depth, value);
      sinceS ??= timeS;
    } else if (sinceS !== null) {
      downs.push({ fromS: sinceS, toS: timeS, depth });
      sinceS = null;
    }
  }
  return sinceS === null ? downs : [...downs, { fromS: sinceS, toS: Math.max(sinceS, endS), depth }];
}

/** The first of these times that ends after a moment; their number where none does. */
export function firstDownAfter(downs: readonly Pick<FootDown, 'toS'>[], momentS: number): number {
  return firstIndex(downs.length, (i) => (downs[i]?.toS ?? Infinity) > momentS);
}

/** Whether the foot is down at a moment. */
export function isDownAt(downs: readonly FootDown[], momentS: number): boolean {
  const down = downs[firstDownAfter(downs, momentS)];
  return down !== undefined && down.fromS <= momentS;
}
