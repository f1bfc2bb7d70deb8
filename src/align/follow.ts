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
  BEAM, BEHIND, BEHIND_LATE, CHORD_S, FARTHER, HIT, JUMP, JUMP_IN_TIME, LAND_ON_BAR, LATER_PASS, LEAVE, LOOK_AHEAD, LOOK_BACK, MAX_SKIPPED, MOVE_AT_ONCE, NOODLE, OCTAVE_HIT, OCTAVE_LOOK_AHEAD,
  ORNAMENT_HIT, OUTSIDE, PACE, PACE_FOLLOWS, PACE_FREE, PACE_EARLY_MOST, PACE_FREE_S, PACE_LATE_MOST, PAUSE_S, RETURN, SAME_SLOT_LATE, SHAKE_HIT, SHAKE_STRAY, SKIP, SKIP_OTHER, SPREAD_S, START_ELSEWHERE, STRAY, TOGETHER_S,
} from './costs.js';
import { landingsFor, type TripleIndex } from './landings.js';
import { shakes } from './shakes.js';
import { RIGHT, type KeyPlaces, type Slots } from './slots.js';

/** A key press as the follower sees it: its key already moved back by the keyboard's transposition. */
export interface Press {
  readonly onsetS: number;
  readonly key: number;
}

/** Where each press belongs: its slot or -1, and whether the player jumped to get there. */
export interface Path {
  readonly slot: Int32Array;
  readonly jumped: Uint8Array;
  /** Sum of rewards and costs along the path, in right notes. */
  readonly worth: number;
}

/** Hypotheses at one moment: a score and a path node by slot; the last index stands for "outside the score". */
class Front {
  readonly score: Float64Array;
  readonly node: Int32Array;
  /** When the slot was reached, seconds, and the seconds a tick lasted up to there; 0 where not known yet. */
  readonly reachedS: Float64Array;
  readonly pace: Float64Array;
  /** When a note of it was last struck, seconds. */
  readonly struckS: Float64Array;
  readonly seen: Uint8Array;
  readonly active: Int32Array;
  size = 0;
  best = -Infinity;
  bestSlot = -1;

  constructor(states: number) {
    this.score = new Float64Array(states);
    this.node = new Int32Array(states);
    this.reachedS = new Float64Array(states);
    this.pace = new Float64Array(states);
    this.struckS = new Float64Array(states);
    this.seen = new Uint8Array(states);
    this.active = new Int32Array(states);
  }

  offer(slot: number, score: number): boolean {
    if (this.seen[slot]) {
      if (score <= (this.score[slot] ?? 0)) return false;
    } else {
      this.seen[slot] = 1;
      this.active[this.size] = slot;
      this.size += 1;
    }
    this.score[slot] = score;
    if (score > this.best) { this.best = score; this.bestSlot = slot; }
    return true;
  }

  /** What a hypothesis carries along: its path and its tempo. */
  carry(slot: number, node: number, reachedS: number, pace: number): void {
    this.node[slot] = node;
    this.reachedS[slot] = reachedS;
    this.pace[slot] = pace;
  }

  clear(): void {
    for (let i = 0; i < this.size; i += 1) this.seen[this.active[i] ?? 0] = 0;
    this.size = 0;
    this.best = -Infinity;
    this.bestSlot = -1;
  }

  /** Gives up what lies more than `BEAM` under the best. */
  prune(): void {
    let kept = 0;
    for (let i = 0; i < this.size; i += 1) {
      const slot = this.active[i] ?? 0;
      if ((this.score[slot] ?? 0) >= this.best - BEAM) { this.active[kept] = slot; kept += 1; } else this.seen[slot] = 0;
    }
    this.size = kept;
  }
}

/** Growing record of every match ever tried: press, slot, whether by a jump, and the match before it. */
class Trail {
  private press = new Int32Array(4096);
  private slot = new Int32Array(4096);
  private before = new Int32Array(4096);
  private jump = new Uint8Array(4096);
  private size = 0;

  add(press: number, slot: number, before: number, jump: boolean): number {
    if (this.size === this.press.length) this.grow();
    this.press[this.size] = press;
    this.slot[this.size] = slot;
    this.before[this.size] = before;
    this.jump[this.size] = jump ? 1 : 0;
    this.size += 1;
    return this.size - 1;
  }

  private grow(): void {
    const wider = (old: Int32Array): Int32Array<ArrayBuffer> => { const next = new Int32Array(old.length * 2); next.set(old); return next; };
    [this.press, this.slot, this.before] = [wider(this.press), wider(this.slot), wider(this.before)];
    const jump = new Uint8Array(this.jump.length * 2);
    jump.set(this.jump);
    this.jump = jump;
  }

  path(last: number, presses: number, worth: number): Path {
    const slot = new Int32Array(presses).fill(-1);
    const jumped = new Uint8Array(presses);
    for (let at = last; at >= 0; at = this.before[at] ?? -1) {
      const press = this.press[at] ?? 0;
      slot[press] = this.slot[at] ?? -1;
      jumped[press] = this.jump[at] ?? 0;
    }
    return { slot, jumped, worth };
  }
}

// First place in an ascending array that is not below a value.
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
function step(slots: Slots, from: number, to: number, hands: number, sinceS: number): number {
  if (to <= from) {
    const late = sinceS <= CHORD_S ? 0 : Math.min(1, (sinceS - CHORD_S) / (SPREAD_S - CHORD_S));
    return to === from ? SAME_SLOT_LATE * late : BEHIND * (from - to) + BEHIND_LATE * late;
  }
  const between = to - from - 1;
  let own = between;
  if (hands === RIGHT) own = (slots.rightBefore[to] ?? 0) - (slots.rightBefore[from + 1] ?? 0);
  else if (hands > RIGHT) own = hands === 3 ? between : (slots.leftBefore[to] ?? 0) - (slots.leftBefore[from + 1] ?? 0);
  if (own > MAX_SKIPPED) return Infinity;
  const atOnce = sinceS < TOGETHER_S ? MOVE_AT_ONCE : 0;
  return SKIP * own + SKIP_OTHER * (between - own) + atOnce;
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

// The pace follows slowly; one step never counts for more than half or double.
function newPace(ticks: number, elapsedS: number, pace: number): number {
  const seen = Math.max(elapsedS, PACE_FREE_S / 2) / ticks;
  if (pace === 0) return seen;
  return pace * Math.min(2, Math.max(0.5, seen / pace)) ** PACE_FOLLOWS;
}

interface Moment {
  readonly slots: Slots;
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
  const ahead = reward === OCTAVE_HIT ? OCTAVE_LOOK_AHEAD : LOOK_AHEAD;
  for (let i = 0; i < m.now.size; i += 1) {
    const from = m.now.active[i] ?? 0;
    if (from === outside) continue;
    const base = (m.now.score[from] ?? 0) + reward;
    if (base <= m.next.best - BEAM) continue;
    const last = Math.min(from + ahead, reachOf(m.slots, from));
    for (let j = lowerBound(places.slots, from - LOOK_BACK); j < places.slots.length; j += 1) {
      const to = places.slots[j] ?? 0;
      if (to > last) break;
      const ticks = (m.slots.tick[to] ?? 0) - (m.slots.tick[from] ?? 0);
      const elapsedS = m.onsetS - (m.now.reachedS[from] ?? 0);
      // the key was struck since this slot was reached: it cannot stand for the same note again
      if (to === from && m.sameKeyS >= (m.now.reachedS[from] ?? 0)) continue;
      const sinceS = m.onsetS - (m.now.struckS[from] ?? 0);
      const score = base - step(m.slots, from, to, places.hands[j] ?? 3, sinceS) - paceCost(ticks, elapsedS, m.now.pace[from] ?? 0);
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

function landingCost(slots: Slots, passes: Int32Array, from: number, to: number): number {
  const onBar = slots.opensBar[to] ? LAND_ON_BAR : 0;
  const far = from < slots.count ? FARTHER * Math.log2(1 + Math.abs(to - from)) : 0;
  return far + LATER_PASS * ((passes[slots.visit[to] ?? 0] ?? 1) - 1) - onBar;
}

function land(m: Moment, passes: Int32Array, landings: ArrayLike<number>): void {
  const outside = m.slots.count;
  const before = m.now.node[m.now.bestSlot] ?? -1;
  const inTime = m.onsetS - m.lastS < PAUSE_S ? JUMP_IN_TIME : 0;
  const fromBest = before >= 0 ? m.now.best - JUMP - inTime : -Infinity;
  const started = (m.now.node[outside] ?? -1) >= 0;
  const fromOutside = m.now.seen[outside] ? (m.now.score[outside] ?? 0) - RETURN : -Infinity;
  for (let i = 0; i < landings.length; i += 1) {
    const to = landings[i] ?? 0;
    const price = landingCost(m.slots, passes, m.now.bestSlot, to);
    const jump = fromBest - price;
    const enter = started ? fromOutside - price : fromOutside + RETURN - startCost(m.slots, passes, to);
    const score = (m.shake ? SHAKE_HIT : HIT) + Math.max(jump, enter);
    if (score <= m.next.best - BEAM || !m.next.offer(to, score)) continue;
    const [node, from] = jump >= enter ? [before, m.now.bestSlot] : [m.now.node[outside] ?? -1, outside];
    m.next.carry(to, m.trail.add(m.press, to, node, true), m.onsetS, m.now.pace[from] ?? 0);
    m.next.struckS[to] = m.onsetS;
  }
}

// Starting to play at a slot: free at the beginning, elsewhere like a jump.
function startCost(slots: Slots, passes: Int32Array, slot: number): number {
  return slot === 0 ? 0 : Math.min(START_ELSEWHERE + landingCost(slots, passes, slots.count, slot), SKIP * slot);
}

// The first press: at the beginning for nothing, anywhere else at a price, or outside the score.
function begin(slots: Slots, passes: Int32Array, trail: Trail, start: { front: Front; press: Press }): void {
  const { front, press } = start;
  slots.byKey[press.key]?.slots.forEach((slot) => {
    if (front.offer(slot, HIT - startCost(slots, passes, slot))) {
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
 * @param passes pass of each visit of the playing order
 * @param presses in time order
 */
export function follow(slots: Slots, index: TripleIndex, passes: Int32Array, presses: readonly Press[]): Path {
  const trail = new Trail();
  const shake = shakes(presses);
  const lastOfKey = new Map<number, number>();
  let now = new Front(slots.count + 1);
  let next = new Front(slots.count + 1);
  const [head] = presses;
  if (!head) return trail.path(-1, 0, 0);
  lastOfKey.set(head.key, head.onsetS);
  begin(slots, passes, trail, { front: now, press: head });
  for (let i = 1; i < presses.length; i += 1) {
    const key = presses[i]?.key ?? 0;
    const onsetS = presses[i]?.onsetS ?? 0;
    const moment: Moment = { slots, trail, now, next, press: i, onsetS, lastS: presses[i - 1]?.onsetS ?? 0, sameKeyS: lastOfKey.get(key) ?? -Infinity, shake: shake[i] === 1 };
    lastOfKey.set(key, onsetS);
    passOver(moment, key);
    for (const [shift, reward] of [[0, moment.shake ? SHAKE_HIT : HIT], [12, OCTAVE_HIT], [-12, OCTAVE_HIT]] as const) {
      if (moment.shake && shift !== 0) continue;
      const places = slots.byKey[key + shift];
      if (places) matchNear(moment, places, reward);
    }
    land(moment, passes, landingsFor(slots, index, [key, presses[i + 1]?.key ?? key, presses[i + 2]?.key ?? key]));
    next.prune();
    now.clear();
    [now, next] = [next, now];
  }
  return trail.path(now.node[now.bestSlot] ?? -1, presses.length, now.best);
}
