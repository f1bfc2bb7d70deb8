import { firstIndex } from '../base/index.js';

/** Tells what share of a list lies below a value, those equal to it counted half: 0-1. An empty list gives 0.5. */
export type RankOf = (value: number) => number;

/** The ranks of a list, for its own values or any other. */
export function ranksOf(values: readonly number[]): RankOf {
  const sorted = [...values].sort((a, b) => a - b);
  return (value) => {
    if (sorted.length === 0) return 0.5;
    const below = firstIndex(sorted.length, (i) => (sorted[i] ?? Infinity) >= value);
    const upTo = firstIndex(sorted.length, (i) => (sorted[i] ?? Infinity) > value, below);
    return (below + upTo) / 2 / sorted.length;
  };
}
