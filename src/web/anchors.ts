/**
 * Addresses of bars. They are shared and kept by people, so they use the printed numbers and not our own count.
 */
import type { Score } from '../score/index.js';

/**
 * The fragment of each bar's address: "bar-7". Printed numbers need not be unique nor even be numbers, so what is not a
 * letter or digit becomes a hyphen, and a second bar of one name gets a number behind it ("bar-7.2").
 * @returns one anchor for each of `Score.bars`
 */
export function barAnchors(score: Pick<Score, 'bars'>): readonly string[] {
  const seen = new Map<string, number>();
  return score.bars.map((bar) => {
    const name = `bar-${bar.number.replace(/[^\p{L}\p{N}]+/gu, '-') || 'x'}`;
    const count = (seen.get(name) ?? 0) + 1;
    seen.set(name, count);
    return count === 1 ? name : `${name}.${count}`;
  });
}
