import type { Path } from './follow.js';

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
