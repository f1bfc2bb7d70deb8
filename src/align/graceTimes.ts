/**
 * The question: when should a grace note have sounded?
 * Conventions: seconds; the grace notes before one main note stand in successive slots, counted down to it.
 * Method: where some of a group were found already, between and beyond them at their own pace; else shortly before the
 * main note, each a short note apart. Our own rule: written grace notes have no length to go by.
 */
import type { Press } from './press.js';
import type { Slots } from './slots.js';
import type { TimeMap } from './timeMap.js';

/** A grace note lasts about so long, seconds, where nothing better is known (some fourteen notes a second at the least). */
const SHORT_NOTE_S = 0.08;

/** First onset found so far in each slot of grace notes. */
export function graceOnsets(slots: Slots, presses: readonly Press[], placed: readonly (readonly [slot: number, press: number])[]): Map<number, number> {
  const struck = new Map<number, number>();
  for (const [slot, press] of placed) {
    if (!slots.grace[slot]) continue;
    const onsetS = presses[press]?.onsetS ?? 0;
    struck.set(slot, Math.min(onsetS, struck.get(slot) ?? Infinity));
  }
  return struck;
}

/** Expected onset of the grace notes in a slot. */
export function graceS(slots: Slots, times: TimeMap, slot: number, struck: ReadonlyMap<number, number>): number {
  const own = struck.get(slot);
  if (own !== undefined) return own;
  const before = neighbour(slots, slot, -1, struck);
  const after = neighbour(slots, slot, 1, struck);
  if (before && after) return before.onsetS + ((after.onsetS - before.onsetS) * (slot - before.slot)) / (after.slot - before.slot);
  if (before) return before.onsetS + SHORT_NOTE_S * (slot - before.slot);
  if (after) return after.onsetS - SHORT_NOTE_S * (after.slot - slot);
  return times.at(slots.tick[slot] ?? 0) - SHORT_NOTE_S * (slots.grace[slot] ?? 0);
}

// The nearest slot of the same group that was found, in one direction.
function neighbour(slots: Slots, slot: number, step: 1 | -1, struck: ReadonlyMap<number, number>): { slot: number; onsetS: number } | null {
  for (let s = slot + step; s >= 0 && s < slots.count && slots.grace[s] && slots.tick[s] === slots.tick[slot]; s += step) {
    const onsetS = struck.get(s);
    if (onsetS !== undefined) return { slot: s, onsetS };
  }
  return null;
}
