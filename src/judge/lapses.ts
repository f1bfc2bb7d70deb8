import { groupBy } from '../base/index.js';
import type { BarFacts } from '../measure/index.js';

/** Something in one bar that was done well or badly. */
export interface Trial {
  readonly bar: BarFacts;
  readonly bad: boolean;
}

/** When badly done things are a lapse: so many (>=), and such a share (>=) of all, in one bar or in two neighbouring ones. */
export interface LapseRule {
  readonly least: number;
  readonly share: number;
}

/** So many (>=), and such a share (>=) of all that a hand does in a piece, are its habit, however far apart they stand. Our own rule. */
const HABIT_LEAST = 4;
const HABIT_SHARE = 0.4;

/** A bar in which something was done badly. */
export interface Lapse<T extends Trial> {
  readonly bar: BarFacts;
  readonly bad: readonly T[];
  readonly all: readonly T[];
}

/**
 * The visits to bars in which something was done badly often enough to be heard as one thing: there, or all through the piece. What
 * crosses a bar line counts together, so that a figure over two bars is not missed.
 * @param trials of one hand, in order of time
 * @param also asked of all trials in the bar, the pair of bars or the piece, besides the rule
 */
export function lapses<T extends Trial>(trials: readonly T[], rule: LapseRule, also: (window: readonly T[]) => boolean = () => true): readonly Lapse<T>[] {
  const bars = [...groupBy(trials, ({ bar }) => bar)];
  const flagged = new Set(isHabit(trials) && also(trials) ? bars.map(([bar]) => bar) : []);
  bars.forEach(([bar, own], place) => {
    const next = bars[place + 1];
    const together = next !== undefined && follows(bar, next[0]) ? [...own, ...next[1]] : own;
    if (isLapse(own, rule) && also(own)) flagged.add(bar);
    if (next !== undefined && together !== own && isLapse(together, rule) && also(together)) flagged.add(bar).add(next[0]);
  });
  return bars.flatMap(([bar, all]) => {
    const bad = all.filter((trial) => trial.bad);
    return flagged.has(bar) && bad.length > 0 ? [{ bar, bad, all }] : [];
  });
}

/** True where things are done badly in so many places of the piece that it is the player's way. */
export function isHabit(trials: readonly Trial[]): boolean {
  return isLapse(trials, { least: HABIT_LEAST, share: HABIT_SHARE });
}

/** True where one visit comes straight after the other. */
function follows(bar: BarFacts, next: BarFacts): boolean {
  return next.stretch === bar.stretch && next.visitIndex === bar.visitIndex + 1;
}

/** True where so many and such a share are bad. */
function isLapse(trials: readonly Trial[], { least, share }: LapseRule): boolean {
  const bad = trials.filter((trial) => trial.bad).length;
  return bad >= least && bad >= share * trials.length;
}
