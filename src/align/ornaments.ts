/**
 * The question: which presses does an ornament sign explain, beyond the written note itself?
 * Conventions: seconds; an ornament may strike the keys that `ornamentSteps` names while its note lasts.
 * Method: a free press of such a key within the note's expected time belongs to it. Our own rule.
 */
import type { Score } from '../score/index.js';
import type { Press } from './press.js';
import { ornamentSteps, writtenNote, type Slots } from './slots.js';
import type { TimeMap } from './timeMap.js';

/** A press that an ornament sign explains. */
export interface OrnamentPress {
  readonly press: number;
  readonly occurrence: number;
}

/** An ornament may begin so long before its note is expected and end so long after it, seconds. */
const EARLY_S = 0.25;
const LATE_S = 0.15;

interface Ornamented {
  readonly occurrence: number;
  readonly fromS: number;
  readonly toS: number;
  readonly keys: ReadonlySet<number>;
}

/** Ornamented notes of the slots, in order of their beginning. */
function ornamentedNotes(score: Score, slots: Slots, times: TimeMap, range: readonly [number, number]): Ornamented[] {
  const list: Ornamented[] = [];
  for (let s = range[0]; s <= range[1]; s += 1) {
    if (!slots.ornamentKeys.has(s)) continue;
    for (let m = slots.first[s] ?? 0; m < (slots.first[s + 1] ?? 0); m += 1) {
      const occurrence = score.occurrences[slots.members[m] ?? 0];
      const steps = occurrence ? ornamentSteps(writtenNote(score, occurrence)) : [];
      if (!occurrence || !steps.length) continue;
      list.push({
        occurrence: occurrence.index,
        fromS: times.at(occurrence.onsetTick) - EARLY_S,
        toS: times.at(occurrence.endTick) + LATE_S,
        keys: new Set(steps.map((step) => occurrence.midi + step)),
      });
    }
    const cue = cueNotes(slots, times, s);
    if (cue) list.push(cue);
  }
  return list;
}

// What cue notes write out belongs to the first note of the slot that it is played over.
function cueNotes(slots: Slots, times: TimeMap, slot: number): Ornamented | null {
  const keys = slots.cueKeys.get(slot);
  const occurrence = slots.members[slots.first[slot] ?? 0];
  if (!keys || occurrence === undefined) return null;
  const tick = slots.tick[slot] ?? 0;
  return { occurrence, keys, fromS: times.at(tick) - EARLY_S, toS: times.at(slots.tick[slot + 1] ?? tick) + LATE_S };
}

/**
 * Gives free presses to the ornaments that sound when they come.
 * @param range first and last slot of the run
 * @param free places of presses, in time order
 */
export function ornamentPresses(score: Score, slots: Slots, times: TimeMap, rest: { range: readonly [number, number]; presses: readonly Press[]; free: readonly number[] }): OrnamentPress[] {
  const notes = ornamentedNotes(score, slots, times, rest.range);
  const found: OrnamentPress[] = [];
  let open = 0;
  for (const index of rest.free) {
    const press = rest.presses[index];
    if (!press) continue;
    while (open < notes.length && (notes[open]?.toS ?? 0) < press.onsetS) open += 1;
    for (let n = open; n < notes.length; n += 1) {
      const note = notes[n];
      if (!note || note.fromS > press.onsetS) break;
      if (press.onsetS <= note.toS && note.keys.has(press.key)) { found.push({ press: index, occurrence: note.occurrence }); break; }
    }
  }
  return found;
}
