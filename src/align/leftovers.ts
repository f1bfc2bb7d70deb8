/**
 * The question: what are the presses that no written note and no ornament took?
 * Method: a press close to a missed note in time and on the keyboard stands for it (a wrong note); any other is added and
 * named by the nearest written note. Our own rules.
 */
import { firstIndex } from '../base/index.js';
import type { Score } from '../score/index.js';
import type { Press } from './press.js';
import type { PairedRun } from './pairNotes.js';
import type { Slots } from './slots.js';

/** A press without a written note of its own. */
export interface Leftover {
  readonly press: number;
  /** The written note it stands for, or the nearest one. */
  readonly near: number | null;
  readonly instead: boolean;
}

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
  readonly midi: number;
}

function nearList(score: Score, slots: Slots, run: PairedRun, onsetS: number): Near[] {
  const { times } = run;
  const nearest = firstIndex(run.lastSlot, (s) => times.at(slots.tick[s] ?? 0) >= onsetS, Math.max(0, run.firstSlot));
  const list: Near[] = [];
  for (let s = Math.max(0, nearest - REACH_SLOTS); s <= Math.min(slots.count - 1, nearest + REACH_SLOTS); s += 1) {
    for (let m = slots.first[s] ?? 0; m < (slots.first[s + 1] ?? 0); m += 1) {
      const occurrence = score.occurrences[slots.members[m] ?? 0];
      if (!occurrence) continue;
      list.push({ occurrence: occurrence.index, expectedS: times.at(occurrence.onsetTick), midi: occurrence.midi });
    }
  }
  return list;
}

function closest(list: readonly Near[], far: (near: Near) => number): Near | undefined {
  return list.reduce<Near | undefined>((best, near) => (!best || far(near) < far(best) ? near : best), undefined);
}

// What was paired, and the voices in unison with it: they sounded too.
function withUnisons(score: Score, slots: Slots, run: PairedRun): Set<number> {
  const paired = new Set(run.pairs.map((pair) => pair.occurrence));
  for (let s = run.firstSlot; s <= run.lastSlot; s += 1) {
    const members = slots.members.subarray(slots.first[s] ?? 0, slots.first[s + 1] ?? 0);
    const sounded = new Set([...members].filter((id) => paired.has(id)).map((id) => score.occurrences[id]?.midi));
    for (const id of members) if (sounded.has(score.occurrences[id]?.midi)) paired.add(id);
  }
  return paired;
}

/** Names every press between the run's bounds that nothing took. */
export function nameLeftovers(score: Score, slots: Slots, run: PairedRun, rest: { presses: readonly Press[]; free: readonly number[] }): Leftover[] {
  const paired = withUnisons(score, slots, run);
  return rest.free.map((index): Leftover => {
    const press = rest.presses[index];
    if (!press) throw new RangeError(`no press ${index}`);
    const list = nearList(score, slots, run, press.onsetS);
    const distance = (near: Near): number => Math.abs(near.expectedS - press.onsetS) + Math.abs(near.midi - press.key) / SEMITONES_PER_S;
    const missed = list.filter((near) => !paired.has(near.occurrence) && Math.abs(near.expectedS - press.onsetS) <= INSTEAD_S && Math.abs(near.midi - press.key) <= INSTEAD_SEMITONES);
    const instead = closest(missed, distance);
    if (instead) {
      paired.add(instead.occurrence);
      return { press: index, near: instead.occurrence, instead: true };
    }
    return { press: index, near: closest(list, distance)?.occurrence ?? null, instead: false };
  });
}
