import { firstIndex } from '../base/index.js';
import { LAND_ANYWHERE_SLOTS, MAX_LANDINGS } from './costs.js';
import { LEFT, RIGHT, type Slots } from './slots.js';

/** Slots of one hand (or both) that a group of three presses may span. */
const SPAN = 3;
/** Notes of a span that are combined at the most: thick chords would give thousands of groups. */
const SPAN_NOTES = 12;

/** Sorted triple of keys as one number; transposing by k adds k times `TRIPLE_STEP`. */
export const TRIPLE_STEP = 1 + 128 + 16_384;

/** The number of three keys in any order. */
export function tripleOf(a: number, b: number, c: number): number {
  const low = Math.min(a, b, c);
  const high = Math.max(a, b, c);
  return low + 128 * (a + b + c - low - high) + 16_384 * high;
}

/** Index of written three-note groups: triple number to the slots where such a group begins, ascending, each once. */
export type TripleIndex = ReadonlyMap<number, readonly number[]>;

function keysBySlot(slots: Slots): number[][] {
  const keys: number[][] = Array.from({ length: slots.count }, () => []);
  slots.byKey.forEach((places, key) => places.slots.forEach((s) => keys[s]?.push(key)));
  return keys;
}

// All triples of a span that hold at least one note of its first slot.
function addTriples(index: Map<number, number[]>, span: readonly (readonly number[])[], slot: number): void {
  const head = span[0] ?? [];
  const all = span.flat().slice(0, SPAN_NOTES);
  for (let a = 0; a < Math.min(head.length, all.length); a += 1) {
    for (let b = a + 1; b < all.length; b += 1) {
      for (let c = b + 1; c < all.length; c += 1) {
        const triple = tripleOf(all[a] ?? 0, all[b] ?? 0, all[c] ?? 0);
        const list = index.get(triple);
        if (!list) index.set(triple, [slot]);
        else if (list.at(-1) !== slot) list.push(slot);
      }
    }
  }
}

/** Indexes every group of three notes within three successive slots, for both hands together and for each alone. */
export function indexTriples(slots: Slots): TripleIndex {
  const index = new Map<number, number[]>();
  const keys = keysBySlot(slots);
  const every = Array.from({ length: slots.count }, (_, s) => s);
  const rows = [every, every.filter((s) => slots.hands[s] === RIGHT || slots.hands[s] === (RIGHT | LEFT)), every.filter((s) => (slots.hands[s] ?? 0) & LEFT)];
  const handKeys = [keys, keysOfHand(slots, RIGHT), keysOfHand(slots, LEFT)];
  rows.forEach((row, r) => {
    row.forEach((slot, i) => {
      const span = row.slice(i, i + SPAN).map((s) => handKeys[r]?.[s] ?? []);
      addTriples(index, span, slot);
    });
  });
  for (const [triple, list] of index) if (list.some((slot, i) => slot <= (list[i - 1] ?? -1))) index.set(triple, ascending(list));
  return index;
}

// The rows of hands find many places twice, and each row begins at the front again.
function ascending(list: readonly number[]): number[] {
  return [...new Set(list)].sort((a, b) => a - b);
}

function keysOfHand(slots: Slots, hand: number): number[][] {
  const keys: number[][] = Array.from({ length: slots.count }, () => []);
  slots.byKey.forEach((places, key) => places.slots.forEach((s, i) => { if ((places.hands[i] ?? 0) & hand) keys[s]?.push(key); }));
  return keys;
}

/** The presses from a jump on, and where the player was before it. */
export interface Jumping {
  /** Keys of the press that would land and of the three after it. */
  readonly keys: readonly [number, number, number, number];
  readonly from: number;
}

/**
 * Where a jump may land: the slots that hold the key; in long scores only those where the next three presses fit as well,
 * and where that is still almost everywhere, those nearest to where the player was.
 */
export function landingsFor(slots: Slots, index: TripleIndex, { keys, from }: Jumping): ArrayLike<number> {
  if (slots.count <= LAND_ANYWHERE_SLOTS) return slots.byKey[keys[0]]?.slots ?? [];
  const [a, b, c, d] = keys;
  const fitting = followedBy(index.get(tripleOf(a, b, c)) ?? [], index.get(tripleOf(b, c, d)) ?? []);
  return fitting.length <= MAX_LANDINGS ? fitting : nearest(fitting, from);
}

// Places of the first list that one of the second follows within a span; both ascending.
function followedBy(first: readonly number[], second: readonly number[]): number[] {
  const kept: number[] = [];
  let j = 0;
  for (const slot of first) {
    while (j < second.length && (second[j] ?? 0) < slot) j += 1;
    if (j < second.length && (second[j] ?? 0) <= slot + SPAN) kept.push(slot);
  }
  return kept;
}

// The places around one, as many on either side.
function nearest(list: readonly number[], from: number): readonly number[] {
  const next = firstIndex(list.length, (i) => (list[i] ?? 0) >= from);
  const start = Math.min(Math.max(0, next - MAX_LANDINGS / 2), list.length - MAX_LANDINGS);
  return list.slice(start, start + MAX_LANDINGS);
}
