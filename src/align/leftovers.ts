/**
 * The question: what are the presses that no written note took?
 * Method: an ornament sign that sounds there explains its neighbours; otherwise a press close to a missed note in time and
 * on the keyboard stands for it (a wrong note), and any other is added, named by the nearest written note. Our own rules.
 */
import type { Score } from '../score/index.js';
import type { Press } from './follow.js';
import type { PairedRun } from './pairNotes.js';
import { ornamentReach, writtenNote, type Slots } from './slots.js';

/** What became of a press without a written note of its own. */
export type Leftover =
  | { readonly kind: 'ornament'; readonly press: number; readonly occurrence: number }
  | { readonly kind: 'added'; readonly press: number; readonly near: number | null; readonly instead: boolean };

/** An ornament may begin so long before its note's expected onset and end so long after it, seconds. */
const ORNAMENT_EARLY_S = 0.25;
const ORNAMENT_LATE_S = 0.15;
/** A wrong note comes within so many seconds of the missed one and so many semitones beside it. */
const INSTEAD_S = 0.3;
const INSTEAD_SEMITONES = 7;
/** Slots looked at on either side of a press. */
const REACH_SLOTS = 8;
/** In a distance, so many semitones weigh as much as a second. */
const SEMITONES_PER_S = 20;

interface Near {
  readonly occurrence: number;
  readonly expectedS: number;
  readonly endS: number;
  readonly midi: number;
  readonly reach: number | null;
}

function nearList(score: Score, slots: Slots, run: PairedRun, onsetS: number): Near[] {
  const { times } = run;
  let low = Math.max(0, run.firstSlot);
  let high = run.lastSlot;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (times.at(slots.tick[middle] ?? 0) < onsetS) low = middle + 1;
    else high = middle;
  }
  const list: Near[] = [];
  for (let s = Math.max(0, low - REACH_SLOTS); s <= Math.min(slots.count - 1, low + REACH_SLOTS); s += 1) {
    for (let m = slots.first[s] ?? 0; m < (slots.first[s + 1] ?? 0); m += 1) {
      const occurrence = score.occurrences[slots.members[m] ?? 0];
      if (!occurrence) continue;
      const expectedS = times.at(occurrence.onsetTick);
      list.push({ occurrence: occurrence.index, expectedS, endS: times.at(occurrence.endTick), midi: occurrence.midi, reach: ornamentReach(writtenNote(score, occurrence)) });
    }
  }
  return list;
}

function ornamentOf(list: readonly Near[], sounding: readonly Near[], press: Press): Near | undefined {
  return [...list, ...sounding].find(({ reach, midi, expectedS, endS }) => reach !== null && Math.abs(press.key - midi) <= reach
    && press.onsetS >= expectedS - ORNAMENT_EARLY_S && press.onsetS <= endS + ORNAMENT_LATE_S);
}

function closest(list: readonly Near[], far: (near: Near) => number): Near | undefined {
  return list.reduce<Near | undefined>((best, near) => (!best || far(near) < far(best) ? near : best), undefined);
}

/** Names every press between the run's bounds that nothing took. */
export function nameLeftovers(score: Score, slots: Slots, run: PairedRun, presses: readonly Press[], free: readonly number[]): Leftover[] {
  const paired = new Set(run.pairs.map((pair) => pair.occurrence));
  const ornamented = longOrnaments(score, slots, run);
  return free.map((index): Leftover => {
    const press = presses[index];
    if (!press) throw new RangeError(`no press ${index}`);
    const list = nearList(score, slots, run, press.onsetS);
    const ornament = ornamentOf(list, ornamented, press);
    if (ornament) return { kind: 'ornament', press: index, occurrence: ornament.occurrence };
    const distance = (near: Near): number => Math.abs(near.expectedS - press.onsetS) + Math.abs(near.midi - press.key) / SEMITONES_PER_S;
    const missed = list.filter((near) => !paired.has(near.occurrence) && Math.abs(near.expectedS - press.onsetS) <= INSTEAD_S && Math.abs(near.midi - press.key) <= INSTEAD_SEMITONES);
    const instead = closest(missed, distance);
    if (instead) {
      paired.add(instead.occurrence);
      return { kind: 'added', press: index, near: instead.occurrence, instead: true };
    }
    return { kind: 'added', press: index, near: closest(list, distance)?.occurrence ?? null, instead: false };
  });
}

// Ornamented notes of the run: a long trill sounds far beyond the slots around its onset.
function longOrnaments(score: Score, slots: Slots, run: PairedRun): Near[] {
  const list: Near[] = [];
  for (let s = Math.max(0, run.firstSlot); s <= run.lastSlot; s += 1) {
    if ((slots.ornamentHigh[s] ?? -1) < 0) continue;
    for (let m = slots.first[s] ?? 0; m < (slots.first[s + 1] ?? 0); m += 1) {
      const occurrence = score.occurrences[slots.members[m] ?? 0];
      const reach = occurrence ? ornamentReach(writtenNote(score, occurrence)) : null;
      if (occurrence && reach !== null) list.push({ occurrence: occurrence.index, expectedS: run.times.at(occurrence.onsetTick), endS: run.times.at(occurrence.endTick), midi: occurrence.midi, reach });
    }
  }
  return list;
}
