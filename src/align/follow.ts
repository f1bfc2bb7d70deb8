/**
 * The question: which written place does each key press belong to, and where did the player jump?
 * Conventions: presses in time order; slots as in `slots.ts`; costs as in `costs.ts`.
 * Method: the best path (Viterbi) through "last written slot reached", with insertion, skipping, late notes, jumps from the
 * best predecessor and a state outside the score; only hypotheses near the best are kept, so time grows with the
 * number of presses, not with presses times slots. Our own rule, after the jump model that Nakamura, Yoshii & Katayose
 * (2017) describe.
 * It does not decide single notes finally: `pairNotes.ts` does, with the times that this path gives.
 */
import {
  BAR_PASSED, BAR_SLOTS, BEAM, BEHIND, BEHIND_LATE, CHORD_S, FARTHER, HIT, JUMP, JUMP_IN_TIME, JUMP_ON, LAND_ON_BAR, LATER_PASS, LEAVE, LEAVE_REPEAT_OUT, LOOK_AHEAD, LOOK_BACK, MAX_SKIPPED, MOVE_AT_ONCE, NOODLE, OCTAVE_HIT, OCTAVE_MOST_STEP,
  ORNAMENT_HIT, OUTSIDE, PACE, PACE_FOLLOWS, PACE_FREE, PACE_EARLY_MOST, PACE_FREE_S, PACE_LATE_MOST, PAUSE_S, RETURN, SAME_SLOT_LATE, SHAKE_HIT, SHAKE_STRAY, SKIP, SKIP_OTHER, SPREAD_S, START_ELSEWHERE, STRAY, TOGETHER_S,
} from './costs.js';
import { Front, Trail, type Path } from './front.js';
import { landingsFor, type TripleIndex } from './landings.js';
import type { Press } from './press.js';
import { shakes } from './shakes.js';
import { LEFT, RIGHT, type KeyPlaces, type Slots } from './slots.js';
import type { Score } from '../score/index.js';

/** What the follower needs to know of the playing order, by visit. */
export interface PlayingOrder {
  readonly pass: Int32Array;
  /** How many visits before this one come for the first time and stand under no ending; one entry more than visits. */
  readonly newBefore: Int32Array;
}

// First place in an ascending array that is not below a value. Its own loop: it runs some hundred times a press.
function lowerBound(list: Int32Array, value: number): number {
  let low = 0;
  let high = list.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((list[middle] ?? 0) < value) low = middle + 1;
    else high = middle;
  }
  return low;
}

// Cost of the next written note being in slot `to` when the last one was in `from`; Infinity where that would be a jump.
function step(slots: Slots, from: number, to: number, note: { hands: number; sinceS: number }): number {
  const { hands, sinceS } = note;
  if (to <= from) {
    const late = sinceS <= CHORD_S ? 0 : Math.min(1, (sinceS - CHORD_S) / (SPREAD_S - CHORD_S));
    return to === from ? SAME_SLOT_LATE * late : BEHIND * (from - to) + BEHIND_LATE * late;
  }
  const between = to - from - 1;
  let own = between;
  if (hands === RIGHT) own = (slots.rightBefore[to] ?? 0) - (slots.rightBefore[from + 1] ?? 0);
  else if (hands > RIGHT) own = hands === (RIGHT | LEFT) ? between : (slots.leftBefore[to] ?? 0) - (slots.leftBefore[from + 1] ?? 0);
  if (own > MAX_SKIPPED) return Infinity;
  const atOnce = sinceS < TOGETHER_S ? MOVE_AT_ONCE : 0;
  const barsOver = (slots.visit[to] ?? 0) - (slots.visit[from] ?? 0) - 1;
  const bars = barsOver > 0 && own >= BAR_SLOTS * barsOver ? BAR_PASSED * barsOver : 0;
  return SKIP * own + SKIP_OTHER * (between - own) + bars + atOnce;
}

// Cost of taking `elapsedS` over some ticks at a pace: free within a factor, and bounded: players stop.
function paceCost(ticks: number, elapsedS: number, pace: number): number {
  if (ticks <= 0 || pace === 0) return 0;
  const expectedS = ticks * pace;
  if (Math.abs(elapsedS - expectedS) <= PACE_FREE_S) return 0;
  const log = Math.log(Math.max(elapsedS, PACE_FREE_S / 2) / expectedS);
  const off = Math.abs(log) - PACE_FREE;
  return off <= 0 ? 0 : Math.min(log > 0 ? PACE_LATE_MOST : PACE_EARLY_MOST, PACE * off);
}

// The pace follows slowly; one step never counts for more than half or double. The first step makes it, but not one within
// a chord's spread: two slots struck at one moment say nothing of the tempo.
function newPace(ticks: number, elapsedS: number, pace: number): number {
  const seen = Math.max(elapsedS, PACE_FREE_S / 2) / ticks;
  if (pace === 0) return elapsedS < CHORD_S ? 0 : seen;
  return pace * (1 + PACE_FOLLOWS * (Math.min(2, Math.max(0.5, seen / pace)) - 1));
}

/** The playing order of a score. */
export function playingOrder(score: Score): PlayingOrder {
  const newBefore = new Int32Array(score.order.length + 1);
  score.order.forEach((visit, v) => {
    const ending = (score.bars[visit.barIndex]?.endings.length ?? 0) > 0;
    newBefore[v + 1] = (newBefore[v] ?? 0) + (visit.pass === 1 && !ending ? 1 : 0);
  });
  return { pass: Int32Array.from(score.order, (visit) => visit.pass), newBefore };
}

interface Moment {
  readonly slots: Slots;
  /** By slot: the last one that is still no jump away. */
  readonly reach: Int32Array;
  readonly trail: Trail;
  readonly now: Front;
  readonly next: Front;
  readonly press: number;
  readonly onsetS: number;
  /** Onset of the press before, seconds. */
  readonly lastS: number;
  /** When the same key was struck last, seconds; -Infinity if never. */
  readonly sameKeyS: number;
  /** True where the press belongs to a trill that is plain from the playing. */
  readonly shake: boolean;
}

// The last slot that is still no jump away: beyond it both hands have passed over too much.
function reachOf(slots: Slots, from: number): number {
  let to = from + MAX_SKIPPED + 1;
  const right = (slots.rightBefore[from + 1] ?? 0) + MAX_SKIPPED;
  const left = (slots.leftBefore[from + 1] ?? 0) + MAX_SKIPPED;
  while (to < slots.count && ((slots.rightBefore[to] ?? 0) <= right || (slots.leftBefore[to] ?? 0) <= left) && to < from + LOOK_AHEAD) to += 1;
  return to;
}

// Tries every written place of a key near every live hypothesis.
function matchNear(m: Moment, places: KeyPlaces, reward: number): void {
  const outside = m.slots.count;
  const octave = reward === OCTAVE_HIT;
  for (let i = 0; i < m.now.size; i += 1) {
    const from = m.now.active[i] ?? 0;
    if (from === outside) continue;
    const base = (m.now.score[from] ?? 0) + reward;
    if (base <= m.next.best - BEAM) continue;
    const last = m.reach[from] ?? 0;
    for (let j = lowerBound(places.slots, from - LOOK_BACK); j < places.slots.length; j += 1) {
      const to = places.slots[j] ?? 0;
      if (to > last) break;
      const ticks = (m.slots.tick[to] ?? 0) - (m.slots.tick[from] ?? 0);
      const elapsedS = m.onsetS - (m.now.reachedS[from] ?? 0);
      // the key was struck since this slot was reached: it cannot stand for the same note again
      if (to === from && m.sameKeyS >= (m.now.reachedS[from] ?? 0)) continue;
      const sinceS = m.onsetS - (m.now.struckS[from] ?? 0);
      const moved = step(m.slots, from, to, { hands: places.hands[j] ?? (RIGHT | LEFT), sinceS });
      if (octave && moved > OCTAVE_MOST_STEP) continue;
      const score = base - moved - paceCost(ticks, elapsedS, m.now.pace[from] ?? 0);
      const state = Math.max(from, to);
      if (score <= m.next.best - BEAM || !m.next.offer(state, score)) continue;
      const node = m.trail.add(m.press, to, m.now.node[from] ?? -1, false);
      if (ticks > 0) m.next.carry(state, node, m.onsetS, newPace(ticks, elapsedS, m.now.pace[from] ?? 0));
      else m.next.carry(state, node, m.now.reachedS[from] ?? 0, m.now.pace[from] ?? 0);
      m.next.struckS[state] = m.onsetS;
    }
  }
}

// Every hypothesis may also pass this press over as a stray or an ornament.
function passOver(m: Moment, key: number): void {
  const outside = m.slots.count;
  const keep = (slot: number, from: number): void => {
    m.next.carry(slot, m.now.node[from] ?? -1, m.now.reachedS[from] ?? 0, m.now.pace[from] ?? 0);
    m.next.struckS[slot] = m.now.struckS[from] ?? 0;
  };
  for (let i = 0; i < m.now.size; i += 1) {
    const slot = m.now.active[i] ?? 0;
    const ornament = m.slots.ornamentKeys.get(slot)?.has(key) ?? false;
    const cost = slot === outside ? OUTSIDE : ornament ? -ORNAMENT_HIT : m.shake ? SHAKE_STRAY : STRAY;
    if (m.next.offer(slot, (m.now.score[slot] ?? 0) - cost)) keep(slot, slot);
  }
  if (m.next.offer(outside, m.now.best - LEAVE - OUTSIDE)) keep(outside, m.now.bestSlot);
}

// What makes one landing place likelier than another.
function landingCost(slots: Slots, order: PlayingOrder, from: number, to: number): number {
  const onBar = slots.opensBar[to] ? LAND_ON_BAR : 0;
  const far = from < slots.count ? FARTHER * Math.log2(1 + Math.abs(to - from)) : 0;
  const on = from < slots.count && to > from ? JUMP_ON : 0;
  return far + on + LATER_PASS * ((order.pass[slots.visit[to] ?? 0] ?? 1) - 1) - onBar;
}

// True where a jump only leaves a repeat out: from one bar line to a new bar, over nothing that was not played already.
function leavesRepeatOut(slots: Slots, order: PlayingOrder, from: number, to: number): boolean {
  const fromVisit = slots.visit[from] ?? 0;
  const toVisit = slots.visit[to] ?? 0;
  if (from >= slots.count || toVisit < fromVisit + 2 || order.pass[toVisit] !== 1 || !slots.opensBar[to] || slots.visit[from + 1] === fromVisit) return false;
  return (order.newBefore[toVisit] ?? 0) === (order.newBefore[fromVisit + 1] ?? 0);
}

function land(m: Moment, order: PlayingOrder, landings: ArrayLike<number>): void {
  const outside = m.slots.count;
  const before = m.now.node[m.now.bestSlot] ?? -1;
  // the last place in the score, also where the player has been outside it since
  const from = before < 0 ? m.slots.count : m.trail.slotOf(before);
  const inTime = m.onsetS - m.lastS < PAUSE_S ? JUMP_IN_TIME : 0;
  const fromBest = before >= 0 ? m.now.best - JUMP - inTime : -Infinity;
  const started = (m.now.node[outside] ?? -1) >= 0;
  const fromOutside = m.now.seen[outside] ? (m.now.score[outside] ?? 0) - RETURN : -Infinity;
  for (let i = 0; i < landings.length; i += 1) {
    const to = landings[i] ?? 0;
    const price = landingCost(m.slots, order, from, to);
    const jump = leavesRepeatOut(m.slots, order, from, to) ? m.now.best - LEAVE_REPEAT_OUT : fromBest - price;
    const enter = started ? fromOutside - price : fromOutside + RETURN - startCost(m.slots, order, to);
    const score = (m.shake ? SHAKE_HIT : HIT) + Math.max(jump, enter);
    if (score <= m.next.best - BEAM || !m.next.offer(to, score)) continue;
    const [node, state] = jump >= enter ? [before, m.now.bestSlot] : [m.now.node[outside] ?? -1, outside];
    m.next.carry(to, m.trail.add(m.press, to, node, true), m.onsetS, m.now.pace[state] ?? 0);
    m.next.struckS[to] = m.onsetS;
  }
}

// Starting to play at a slot: free at the beginning, elsewhere like a jump.
function startCost(slots: Slots, order: PlayingOrder, slot: number): number {
  return slot === 0 ? 0 : Math.min(START_ELSEWHERE + landingCost(slots, order, slots.count, slot), SKIP * slot);
}

// The first press: at the beginning for nothing, anywhere else at a price, or outside the score.
function begin(slots: Slots, order: PlayingOrder, trail: Trail, start: { front: Front; press: Press }): void {
  const { front, press } = start;
  slots.byKey[press.key]?.slots.forEach((slot) => {
    if (front.offer(slot, HIT - startCost(slots, order, slot))) {
      front.carry(slot, trail.add(0, slot, -1, true), press.onsetS, 0);
      front.struckS[slot] = press.onsetS;
    }
  });
  if (front.offer(slots.count, -NOODLE - OUTSIDE)) front.carry(slots.count, -1, press.onsetS, 0);
}

/**
 * Follows the presses through the score.
 * @param slots the score
 * @param index its three-note groups
 * @param order the playing order that the slots come from
 * @param presses in time order
 */
export function follow(slots: Slots, index: TripleIndex, order: PlayingOrder, presses: readonly Press[]): Path {
  const trail = new Trail();
  const reach = Int32Array.from({ length: slots.count }, (_, slot) => reachOf(slots, slot));
  const shake = shakes(presses);
  const keyAt = (i: number): number => presses[Math.min(i, presses.length - 1)]?.key ?? 0;
  const lastOfKey = new Map<number, number>();
  let now = new Front(slots.count + 1);
  let next = new Front(slots.count + 1);
  const [head] = presses;
  if (!head) return trail.path(-1, 0, 0);
  lastOfKey.set(head.key, head.onsetS);
  begin(slots, order, trail, { front: now, press: head });
  for (let i = 1; i < presses.length; i += 1) {
    const key = presses[i]?.key ?? 0;
    const onsetS = presses[i]?.onsetS ?? 0;
    const moment: Moment = { slots, reach, trail, now, next, press: i, onsetS, lastS: presses[i - 1]?.onsetS ?? 0, sameKeyS: lastOfKey.get(key) ?? -Infinity, shake: shake[i] === 1 };
    lastOfKey.set(key, onsetS);
    passOver(moment, key);
    for (const [shift, reward] of [[0, moment.shake ? SHAKE_HIT : HIT], [12, OCTAVE_HIT], [-12, OCTAVE_HIT]] as const) {
      if (moment.shake && shift !== 0) continue;
      const places = slots.byKey[key + shift];
      if (places) matchNear(moment, places, reward);
    }
    land(moment, order, landingsFor(slots, index, { keys: [key, keyAt(i + 1), keyAt(i + 2), keyAt(i + 3)], from: now.bestSlot }));
    next.prune();
    now.clear();
    [now, next] = [next, now];
  }
  return trail.path(now.node[now.bestSlot] ?? -1, presses.length, now.best);
}
