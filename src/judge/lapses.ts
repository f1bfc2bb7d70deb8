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

/** A bar in which something was done badly. */
export interface Lapse<T extends Trial> {
  readonly bar: BarFacts;
  readonly bad: readonly T[];
  readonly all: readonly T[];
}

/**
 * The visits to bars in which something was done badly often enough to be heard as one thing. What crosses a bar line counts
 * together, so that a figure over two bars is not missed.
 * @param trials of one hand, in order of time
 * @param also asked of all trials in the bar or pair of bars besides the rule
 */
export function lapses<T extends Trial>(trials: readonly T[], rule: LapseRule, also: (window: readonly T[]) => boolean = () => true): readonly Lapse<T>[] {
  const bars = [...groupBy(trials, ({ bar }) => bar)];
  const flagged = new Set<BarFacts>();
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

/** True where one visit comes straight after the other. */
function follows(bar: BarFacts, next: BarFacts): boolean {
  return next.stretch === bar.stretch && next.visitIndex === bar.visitIndex + 1;
}

/** True where so many and such a share are bad. */
function isLapse(trials: readonly Trial[], { least, share }: LapseRule): boolean {
  const bad = trials.filter((trial) => trial.bad).length;
  return bad >= least && bad >= share * trials.length;
}
