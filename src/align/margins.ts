/**
 * The question: which notes just before and just after the follower's matches belong to the same run?
 * Conventions: slots in unfolded order; a run's own slots are those of the follower's matches, first to last.
 * Method: outwards from the run's own slots, a slot found is worth a hit and a slot of the run's hands passed over costs what
 * the follower pays for it; the run reaches as far as this sum is largest. So a slip before a return, which happens to be
 * written a bar earlier, does not drag the run over bars that nobody played. Our own rule.
 */
import { HIT, SKIP, SKIP_OTHER } from './costs.js';
import type { Slots } from './slots.js';

/** Slots, inclusive. */
export type SlotRange = readonly [first: number, last: number];

/** What the reach is judged by. */
export interface Around {
  /** The run's own slots. */
  readonly own: SlotRange;
  /** The slots that may be reached at the most. */
  readonly most: SlotRange;
  /** True where a press was paired with a note of the slot. */
  readonly found: (slot: number) => boolean;
}

/** How far a run reaches: its own slots, and beyond them as far as what is found there outweighs what is passed over. */
export function reachOfRun(slots: Slots, around: Around): SlotRange {
  const { own, most } = around;
  const hands = handsWithin(slots, around);
  const worthOf = (slot: number): number => {
    if (around.found(slot)) return HIT;
    return (slots.hands[slot] ?? 0) & hands ? -SKIP : -SKIP_OTHER;
  };
  return [furthest(own[0], most[0], worthOf), furthest(own[1], most[1], worthOf)];
}

// Hands with a note found within the run's own slots, as a mask.
function handsWithin(slots: Slots, { own, found }: Around): number {
  let hands = 0;
  for (let slot = own[0]; slot <= own[1]; slot += 1) if (found(slot)) hands |= slots.hands[slot] ?? 0;
  return hands;
}

// The slot from `start` towards `end` up to which the sum of worths is largest; of equals the nearest.
function furthest(start: number, end: number, worthOf: (slot: number) => number): number {
  const way = Math.sign(end - start);
  let [best, at, sum] = [0, start, 0];
  for (let slot = start + way; way !== 0 && slot !== end + way; slot += way) {
    sum += worthOf(slot);
    if (sum > best) [best, at] = [sum, slot];
  }
  return at;
}
