import { BEAM } from './costs.js';

/**
 * Hypotheses kept from press to press at the most. Music that says one thing over and over (an ostinato, a broken chord, one
 * key) fits everywhere at once, and without a bound the work would grow with the square of its length.
 */
export const MOST_ACTIVE = 400;

/** Where each press belongs: its slot or -1, and whether the player jumped to get there. */
export interface Path {
  readonly slot: Int32Array;
  readonly jumped: Uint8Array;
  /** Sum of rewards and costs along the path, in right notes. */
  readonly worth: number;
}

/** Hypotheses at one moment: a score and a path node by slot; the last index stands for "outside the score". */
export class Front {
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

  // What grows from the best sets the bar for the rest.
  private bestFirst(): void {
    const at = this.active.indexOf(this.bestSlot);
    this.active[at] = this.active[0] ?? 0;
    this.active[0] = this.bestSlot;
  }

  // The score of the last hypothesis that is kept: near the best, and among the `MOST_ACTIVE` best.
  private leastKept(): number {
    const nearBest = this.best - BEAM;
    if (this.size <= MOST_ACTIVE) return nearBest;
    const scores = Float64Array.from(this.active.subarray(0, this.size), (slot) => this.score[slot] ?? -Infinity).sort();
    return Math.max(nearBest, scores[scores.length - MOST_ACTIVE] ?? nearBest);
  }

  /** Gives up what lies more than `BEAM` under the best, and what lies under the `MOST_ACTIVE` best; of equals the first stay. */
  prune(): void {
    const least = this.leastKept();
    let kept = 0;
    for (let i = 0; i < this.size; i += 1) {
      const slot = this.active[i] ?? 0;
      const stays = slot === this.bestSlot || (kept < MOST_ACTIVE && (this.score[slot] ?? 0) >= least);
      if (stays) { this.active[kept] = slot; kept += 1; } else this.seen[slot] = 0;
    }
    this.size = kept;
    this.bestFirst();
  }
}

/** Growing record of every match ever tried: press, slot, whether by a jump, and the match before it. */
export class Trail {
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

  /** Slot of a match, -1 for none. */
  slotOf(node: number): number {
    return node < 0 ? -1 : (this.slot[node] ?? -1);
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
