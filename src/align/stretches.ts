import type { Press } from './press.js';
import type { Path } from './front.js';
import type { Slots } from './slots.js';

/** A run of presses that follow the score without a jump; presses and slots inclusive. */
export interface Run {
  readonly firstPress: number;
  readonly lastPress: number;
  /** Matches of the follower, in time order: press and slot at equal places. */
  readonly presses: readonly number[];
  readonly slots: readonly number[];
}

/** Runs with fewer matches than this are chance: a jump needs about four right notes to pay for itself. */
const MIN_MATCHES = 3;

/** Cuts a path at its jumps. Presses between two runs belong to neither yet. */
export function cutAtJumps(path: Path): Run[] {
  const runs: { presses: number[]; slots: number[] }[] = [];
  path.slot.forEach((slot, press) => {
    if (slot < 0) return;
    const last = runs.at(-1);
    if (!last || path.jumped[press]) runs.push({ presses: [press], slots: [slot] });
    else { last.presses.push(press); last.slots.push(slot); }
  });
  return runs
    .filter((run) => run.presses.length >= MIN_MATCHES || runs.length === 1)
    .map((run) => ({ ...run, firstPress: run.presses[0] ?? 0, lastPress: run.presses.at(-1) ?? 0 }));
}

/** A step over whole bars was a jump when it takes no longer than the written notes at its two ends need, within this factor: the bars were left out, not missed. */
const LEFT_OUT_FACTOR = 1.5;
/** Matches before a step that tell the pace. */
const PACE_MATCHES = 24;

/** Cuts runs where whole bars were stepped over without taking their time. */
export function cutAtLeftOutBars(slots: Slots, presses: readonly Press[], runs: readonly Run[]): Run[] {
  return runs.flatMap((run) => {
    const cuts = [0];
    for (let i = 1; i < run.slots.length; i += 1) if (leavesBarsOut(slots, presses, run, i)) cuts.push(i);
    return cuts.map((from, k) => {
      const to = cuts[k + 1] ?? run.slots.length;
      const part = { presses: run.presses.slice(from, to), slots: run.slots.slice(from, to) };
      return { ...part, firstPress: part.presses[0] ?? run.firstPress, lastPress: part.presses.at(-1) ?? run.lastPress };
    });
  });
}

// True where match i of a run stands beyond a whole bar that was passed over in less than its time.
function leavesBarsOut(slots: Slots, presses: readonly Press[], run: Run, i: number): boolean {
  const [from, to] = [run.slots[i - 1] ?? 0, run.slots[i] ?? 0];
  if ((slots.visit[to] ?? 0) < (slots.visit[from] ?? 0) + 2 || i < MIN_MATCHES || run.slots.length - i < MIN_MATCHES) return false;
  const start = Math.max(0, i - 1 - PACE_MATCHES);
  const ticks = (slots.tick[from] ?? 0) - (slots.tick[run.slots[start] ?? 0] ?? 0);
  const at = (match: number): number => presses[run.presses[match] ?? 0]?.onsetS ?? 0;
  if (ticks <= 0) return false;
  const pace = (at(i - 1) - at(start)) / ticks;
  return at(i) - at(i - 1) < LEFT_OUT_FACTOR * pace * ((slots.tick[to] ?? 0) - (slots.tick[from] ?? 0) - passedOver(slots, from, to));
}

// Ticks of the bars that lie wholly between two slots.
function passedOver(slots: Slots, from: number, to: number): number {
  let first = from;
  while (first < to && slots.visit[first] === slots.visit[from]) first += 1;
  let last = to;
  while (last > first && slots.visit[last - 1] === slots.visit[to]) last -= 1;
  return (slots.tick[last] ?? 0) - (slots.tick[first] ?? 0);
}
