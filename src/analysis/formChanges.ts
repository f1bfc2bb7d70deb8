/*
 * Question: what is different when a section comes back?
 * Conventions: bars are laid side by side from the first on; a change names the bars of the return; a shift is semitones.
 * Method: bars that differ at the return's shift are found; all at the end make "the close", all at the beginning "the opening"; otherwise the hand
 *   that differs is named where the other stays. Lengths are compared last.
 * Source: our own rule.
 * What it does not tell: dynamics, touch and pedal, which a return may change too.
 */
import type { BarContent } from './formBars.js';
import { common, likenessAt } from './formLikeness.js';
import type { Change } from './formTypes.js';

/** A hand that shares less than this of its notes differs; `<`. One note of thirty may be a slip of the pen. */
const SAME_HAND = 0.97;

/** A close or an opening is at most this share of the bars; more is a new version. */
const EDGE_SHARE = 0.5;

/** Two stretches of bars, in order. */
export interface SideBySide {
  readonly first: readonly number[];
  readonly second: readonly number[];
}

/** How one pair of bars compares. */
interface Pair {
  readonly bar: number;
  readonly right: boolean;
  readonly left: boolean;
}

/** True where two stretches hold the same notes at the same places in bars of the same lengths. */
export function isExact(bars: readonly BarContent[], { first, second }: SideBySide): boolean {
  return first.length === second.length && first.every((bar, i) => sameBar(bars[bar], bars[second[i] ?? -1]));
}

/** What differs in the second stretch; empty for an exact return. */
export function changesOf(bars: readonly BarContent[], sides: SideBySide): readonly Change[] {
  const shift = shiftOf(bars, sides);
  const pairs = pairsAt(bars, sides, shift);
  const bounds = { fromBar: sides.second[0] ?? 0, toBar: sides.second[sides.second.length - 1] ?? 0 };
  const length = sides.second.length - sides.first.length;
  return [
    ...(shift === 0 ? [] : [{ kind: 'transposed' as const, ...bounds, amount: shift }]),
    ...noteChanges(pairs),
    ...(length === 0 ? [] : [{ kind: length > 0 ? ('longer' as const) : ('shorter' as const), ...bounds, amount: Math.abs(length) }]),
  ];
}

/** The shift at which the two stretches are most alike; 0 wins a tie. */
export function shiftOf(bars: readonly BarContent[], { first, second }: SideBySide): number {
  let best = { shift: 0, sum: -1 };
  for (const shift of [0, 12, -12, ...Array.from({ length: 11 }, (_, i) => [i + 1, -(i + 1)]).flat()]) {
    const sum = first.reduce((total, bar, i) => total + alikeAt(bars[bar], bars[second[i] ?? -1], shift), 0);
    if (sum > best.sum) best = { shift, sum };
  }
  return best.shift;
}

/** Likeness of two bars that may be missing. */
function alikeAt(first: BarContent | undefined, second: BarContent | undefined, shift: number): number {
  return first === undefined || second === undefined ? 0 : likenessAt(first, second, { shift });
}

/** The same notes in both hands. */
function sameBar(first: BarContent | undefined, second: BarContent | undefined): boolean {
  if (first === undefined || second === undefined) return false;
  return first.lengthTicks === second.lengthTicks && common(first.right, second.right, 0) === 1 && common(first.left, second.left, 0) === 1;
}

/** Which hands are the same in each pair of bars. */
function pairsAt(bars: readonly BarContent[], { first, second }: SideBySide, shift: number): readonly Pair[] {
  return first.flatMap((source, i) => {
    const [a, b, bar] = [bars[source], bars[second[i] ?? -1], second[i]];
    if (a === undefined || b === undefined || bar === undefined) return [];
    return [{ bar, right: common(a.right, b.right, shift) >= SAME_HAND, left: common(a.left, b.left, shift) >= SAME_HAND }];
  });
}

/** Where the notes differ: at one edge, in one hand, or here and there. */
function noteChanges(pairs: readonly Pair[]): readonly Change[] {
  const differ = pairs.map((pair) => !pair.right || !pair.left);
  const first = differ.indexOf(true);
  const last = differ.lastIndexOf(true);
  if (first < 0) return [];
  const count = last - first + 1;
  const solid = differ.slice(first, last + 1).filter((each) => each).length * 2 > count;
  const range = { fromBar: pairs[first]?.bar ?? 0, toBar: pairs[last]?.bar ?? 0, amount: 0 };
  if (solid && last === pairs.length - 1 && count <= pairs.length * EDGE_SHARE) return [{ kind: 'close', ...range }];
  if (solid && first === 0 && count <= pairs.length * EDGE_SHARE) return [{ kind: 'opening', ...range }];
  const touched = pairs.slice(first, last + 1);
  if (touched.every((pair) => pair.right)) return [{ kind: 'leftHand', ...range }];
  if (touched.every((pair) => pair.left)) return [{ kind: 'rightHand', ...range }];
  return [{ kind: 'middle', ...range }];
}
