/**
 * The question: which key press played which written note?
 * Conventions: one run of the route at a time; times in seconds; keys already moved back by the transposition.
 * Method: expected times from the notes paired so far, then the cheapest pairing key by key (`pairKeys.ts`), a few rounds
 * over; after that octave slips. Two stages as in Peter (2023, arXiv 2401.00466), with our own costs.
 */
import { groupBy } from '../base/index.js';
import type { Score } from '../score/index.js';
import type { Press } from './press.js';
import { graceOnsets, graceS } from './graceTimes.js';
import { handOctaves, type HandOctaves } from './handOctaves.js';
import { reachOfRun, type SlotRange } from './margins.js';
import { ornamentPresses, type OrnamentPress } from './ornaments.js';
import { pairKeys, type Offered, type Wanted } from './pairKeys.js';
import { handOf, type Slots } from './slots.js';
import type { Run } from './stretches.js';
import { timeMapOf, type TimeMap } from './timeMap.js';

/** A press paired with an occurrence, and the octaves it lies away. */
export interface NotePair {
  readonly occurrence: number;
  readonly press: number;
  readonly octaveSlip: number;
}

/** Pairs of one run with the times that were expected. */
export interface PairedRun {
  readonly run: Run;
  readonly pairs: readonly NotePair[];
  readonly ornaments: readonly OrnamentPress[];
  readonly times: TimeMap;
  readonly firstSlot: number;
  readonly lastSlot: number;
}

/** Rounds of times from pairs and pairs from times; the second changes little, the third next to nothing. */
const ROUNDS = 3;
/** Slots before and after the run's own that may still take its free presses. */
const MARGIN_SLOTS = 6;
/** Least and largest tolerance, seconds: a spread chord; a hesitation inside a bar. */
const MIN_TOLERANCE_S = 0.1;
const MAX_TOLERANCE_S = 0.8;
/** Tolerance as a share of a crotchet at the local tempo. */
const TOLERANCE_CROTCHETS = 0.6;
/** An octave slip must come this near, as a share of the tolerance of a right note: the ear needs it to be the same note. */
const OCTAVE_TOLERANCE = 0.25;
/** Tempo assumed where a single anchor gives none: crotchet = 90. */
const FALLBACK_CROTCHET_S = 60 / 90;

interface Work {
  readonly score: Score;
  readonly slots: Slots;
  readonly presses: readonly Press[];
  /** 1 where a press is taken by an earlier run. */
  readonly taken: Uint8Array;
}

interface Item extends Wanted {
  /** Key expected, and the octaves it lies away from the written one. */
  readonly key: number;
  readonly octaves: number;
}

interface Bounds {
  readonly fromSlot: number;
  readonly toSlot: number;
  readonly fromPress: number;
  readonly toPress: number;
}

// The follower's matches, of one key in one slot only the first: struck again, a key tells nothing of when its note was due.
function firstStrikes(work: Work, run: Run): (readonly [slot: number, press: number])[] {
  const seen = new Set<number>();
  return run.slots.flatMap((slot, i) => {
    const press = run.presses[i] ?? 0;
    const note = slot * 128 + (work.presses[press]?.key ?? 0);
    if (seen.has(note)) return [];
    seen.add(note);
    return [[slot, press] as const];
  });
}

function pointsOf(work: Work, pairs: readonly (readonly [slot: number, press: number])[]): Map<number, number[]> {
  const points = new Map<number, number[]>();
  for (const [slot, press] of pairs) {
    if (work.slots.grace[slot]) continue;
    const tick = work.slots.tick[slot] ?? 0;
    const list = points.get(tick);
    const onsetS = work.presses[press]?.onsetS ?? 0;
    if (list) list.push(onsetS);
    else points.set(tick, [onsetS]);
  }
  return points;
}

// Written notes of the bounds with their expected times; voices in unison once.
function wantedNotes(work: Work, times: TimeMap, bounds: Bounds, found: { struck: ReadonlyMap<number, number>; octavesOf: HandOctaves }): Item[] {
  const { slots, score } = work;
  const items: Item[] = [];
  for (let s = bounds.fromSlot; s <= bounds.toSlot; s += 1) {
    const tick = slots.tick[s] ?? 0;
    const expectedS = slots.grace[s] ? graceS(slots, times, s, found.struck) : times.at(tick);
    const tolerance = TOLERANCE_CROTCHETS * score.ticksPerQuarter * times.secondsPerTick(tick);
    const toleranceS = Math.min(MAX_TOLERANCE_S, Math.max(MIN_TOLERANCE_S, tolerance));
    const keys = new Set<number>();
    for (let m = slots.first[s] ?? 0; m < (slots.first[s + 1] ?? 0); m += 1) {
      const id = slots.members[m] ?? 0;
      const occurrence = score.occurrences[id];
      if (!occurrence) continue;
      const octaves = found.octavesOf(s, handOf(occurrence.staff));
      const key = occurrence.midi + 12 * octaves;
      if (keys.has(key)) continue;
      keys.add(key);
      items.push({ id, key, octaves, expectedS, toleranceS });
    }
  }
  return items;
}

// Pairs every key of the wanted notes with presses of the key `shift` semitones higher.
function pairAll(wanted: readonly Item[], offered: ReadonlyMap<number, readonly Offered[]>, shift: number): NotePair[] {
  const pairs: NotePair[] = [];
  for (const [key, list] of groupBy(wanted, (item) => item.key)) {
    const free = offered.get(key + shift);
    if (!free) continue;
    const sorted = [...list].sort((a, b) => a.expectedS - b.expectedS);
    pairKeys(sorted, free, (w, o) => pairs.push({ occurrence: w.id, press: o.id, octaveSlip: w.octaves + shift / 12 }));
  }
  return pairs;
}

function offeredPresses(work: Work, bounds: Bounds, used: ReadonlySet<number>): Map<number, Offered[]> {
  const free: (Offered & { readonly key: number })[] = [];
  for (let i = bounds.fromPress; i <= bounds.toPress; i += 1) {
    const press = work.presses[i];
    if (press && !work.taken[i] && !used.has(i)) free.push({ id: i, onsetS: press.onsetS, key: press.key });
  }
  return groupBy(free, (press) => press.key);
}

function slotOf(work: Work): Int32Array {
  const slot = new Int32Array(work.score.occurrences.length);
  for (let s = 0; s < work.slots.count; s += 1) {
    for (let m = work.slots.first[s] ?? 0; m < (work.slots.first[s + 1] ?? 0); m += 1) slot[work.slots.members[m] ?? 0] = s;
  }
  return slot;
}

function octaveSlips(work: Work, wanted: readonly Item[], bounds: Bounds, found: { pairs: NotePair[]; ornaments: readonly OrnamentPress[] }): void {
  const { pairs, ornaments } = found;
  for (const shift of [12, -12, 24, -24]) {
    const done = new Set(pairs.map((pair) => pair.occurrence));
    const used = new Set([...pairs, ...ornaments].map((pair) => pair.press));
    const left = wanted.filter((item) => !done.has(item.id)).map((item) => ({ ...item, toleranceS: item.toleranceS * OCTAVE_TOLERANCE }));
    pairs.push(...pairAll(left, offeredPresses(work, bounds, used), shift));
  }
}

function pairRun(work: Work, run: Run, bounds: Bounds, slotByOccurrence: Int32Array): PairedRun {
  const { score, slots } = work;
  let placed = firstStrikes(work, run);
  let points = pointsOf(work, placed);
  const fallback = FALLBACK_CROTCHET_S / score.ticksPerQuarter;
  let times = timeMapOf(points, fallback);
  let pairs: NotePair[] = [];
  let wanted: Item[] = [];
  const offered = offeredPresses(work, bounds, new Set());
  const octavesOf = handOctaves(slots, work.presses, run);
  const withinReach = (all: readonly NotePair[]): NotePair[] => pairsWithinReach(slots, run, bounds, { pairs: all, slotByOccurrence });
  for (let round = 0; round < ROUNDS; round += 1) {
    wanted = wantedNotes(work, times, bounds, { struck: graceOnsets(slots, work.presses, placed), octavesOf });
    pairs = withinReach(pairAll(wanted, offered, 0));
    placed = pairs.map((pair) => [slotByOccurrence[pair.occurrence] ?? 0, pair.press] as const);
    points = pointsOf(work, placed);
    if (points.size) times = timeMapOf(points, fallback);
  }
  // ornaments only where something was played: a bar of the margin is no bar of the route
  const range = spanOf(pairs, slotByOccurrence);
  const ornaments = ornamentPresses(score, slots, times, { range, presses: work.presses, free: freePresses(work, bounds, pairs) });
  octaveSlips(work, wanted, bounds, { pairs, ornaments });
  pairs = withinReach(pairs);
  const [firstSlot, lastSlot] = spanOf(pairs, slotByOccurrence);
  return { run, pairs, ornaments, times, firstSlot, lastSlot };
}

// The pairs as far as the run reaches into its margins.
function pairsWithinReach(slots: Slots, run: Run, bounds: Bounds, found: { pairs: readonly NotePair[]; slotByOccurrence: Int32Array }): NotePair[] {
  const slotOfPair = ({ occurrence }: NotePair): number => found.slotByOccurrence[occurrence] ?? 0;
  const used = new Set(found.pairs.map(slotOfPair));
  const [first, last] = reachOfRun(slots, { own: ownSlots(run), most: [bounds.fromSlot, bounds.toSlot], found: (slot) => used.has(slot) });
  return found.pairs.filter((pair) => slotOfPair(pair) >= first && slotOfPair(pair) <= last);
}

// First and last slot of the follower's matches.
function ownSlots(run: Run): SlotRange {
  return [run.slots.reduce((a, b) => Math.min(a, b), Infinity), run.slots.reduce((a, b) => Math.max(a, b), 0)];
}

// First and last slot of the pairs; an empty span where there are none.
function spanOf(pairs: readonly NotePair[], slotByOccurrence: Int32Array): readonly [number, number] {
  const used = pairs.map((pair) => slotByOccurrence[pair.occurrence] ?? 0);
  return [used.reduce((a, b) => Math.min(a, b), Infinity), used.reduce((a, b) => Math.max(a, b), -1)];
}

function freePresses(work: Work, bounds: Bounds, pairs: readonly NotePair[]): number[] {
  const used = new Set(pairs.map((pair) => pair.press));
  const free: number[] = [];
  for (let i = bounds.fromPress; i <= bounds.toPress; i += 1) if (!work.taken[i] && !used.has(i)) free.push(i);
  return free;
}

/** Pairs the notes of all runs, in time order. A press belongs to one run only. */
export function pairNotes(score: Score, slots: Slots, presses: readonly Press[], runs: readonly Run[]): PairedRun[] {
  const work: Work = { score, slots, presses, taken: new Uint8Array(presses.length) };
  const slotByOccurrence = slotOf(work);
  return runs.map((run, r) => {
    const [first, last] = ownSlots(run);
    const bounds: Bounds = {
      fromSlot: Math.max(0, first - MARGIN_SLOTS),
      toSlot: Math.min(slots.count - 1, last + MARGIN_SLOTS),
      fromPress: (runs[r - 1]?.lastPress ?? -1) + 1,
      toPress: (runs[r + 1]?.firstPress ?? presses.length) - 1,
    };
    const paired = pairRun(work, run, bounds, slotByOccurrence);
    for (const { press } of [...paired.pairs, ...paired.ornaments]) work.taken[press] = 1;
    return paired;
  });
}
