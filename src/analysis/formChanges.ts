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
import type { Change, ChangeKind } from './formTypes.js';

/** A hand that shares less than this of its notes differs; `<`. One note of thirty may be a slip of the pen. */
const SAME_HAND = 0.97;

/** A close or an opening is at most this share of the bars; more is a new version. */
const EDGE_SHARE = 0.5;

/** Beyond this share of its bars a return is varied throughout. */
const THROUGHOUT_SHARE = 0.8;

/** Bars less alike than this no longer follow the model; `>=` follows. Less than in a return that has to be found: it is known here. */
const FOLLOWS = 0.4;

/** A return that follows less than this share of its model, or goes on beyond it by as much, goes its own way. */
const FOLLOWED_SHARE = 0.75;

/** A return that follows its model for fewer bars is written anew, over the same harmony. */
const LEAST_FOLLOWED = 2;

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
  /** All notes of the model are there, or no others than the model's. */
  readonly adds: boolean;
  readonly omits: boolean;
}

/** True where two stretches hold the same notes at the same places in bars of the same lengths. */
export function isExact(bars: readonly BarContent[], { first, second }: SideBySide): boolean {
  return first.length === second.length && first.every((bar, i) => sameBar(bars[bar], bars[second[i] ?? -1]));
}

/** What differs in the second stretch; empty for an exact return. */
export function changesOf(bars: readonly BarContent[], sides: SideBySide): readonly Change[] {
  const shift = shiftOf(bars, sides);
  const followed = followedBars(bars, sides, shift);
  const whole = Math.min(sides.first.length, sides.second.length);
  const leaves = followed < whole * FOLLOWED_SHARE || sides.second.length - followed > whole * FOLLOWED_SHARE;
  const pairs = pairsAt(bars, sides, shift);
  const bounds = { fromBar: sides.second[0] ?? 0, toBar: sides.second[sides.second.length - 1] ?? 0 };
  const length = sides.second.length - sides.first.length;
  const transposed: readonly Change[] = shift === 0 || (shift % 12 === 0 && followed < LEAST_FOLLOWED) ? [] : [{ kind: 'transposed', ...bounds, amount: shift }];
  if (followed < LEAST_FOLLOWED) return [...transposed, { kind: 'throughout', ...bounds, amount: 0 }];
  if (leaves && followed > 0 && followed < sides.second.length) {
    return [...transposed, ...noteChanges(pairs.slice(0, followed), false), { kind: 'leaves', fromBar: sides.second[followed] ?? 0, toBar: bounds.toBar, amount: 0 }];
  }
  return [...transposed, ...noteChanges(pairs, true), ...(length === 0 ? [] : [{ kind: length > 0 ? ('longer' as const) : ('shorter' as const), ...bounds, amount: Math.abs(length) }])];
}

/** How many bars the return follows its model before two in a row are unlike. */
function followedBars(bars: readonly BarContent[], { first, second }: SideBySide, shift: number): number {
  const alike = first.slice(0, second.length).map((bar, i) => alikeAt(bars[bar], bars[second[i] ?? -1], shift) >= FOLLOWS);
  const left = alike.findIndex((each, i) => !each && alike[i + 1] !== true);
  return left < 0 ? alike.length : left;
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
    const [adds, omits] = [includesAll(a.sounds, b.sounds, shift), includesAll(b.sounds, a.sounds, -shift)];
    return [{ bar, adds, omits, right: common(a.right, b.right, shift) >= SAME_HAND, left: common(a.left, b.left, shift) >= SAME_HAND }];
  });
}

/** Where the notes differ: at one edge (not where the return goes on afterwards), throughout, in one hand, or here and there. */
function noteChanges(pairs: readonly Pair[], ends: boolean): readonly Change[] {
  const differ = pairs.map((pair) => !pair.right || !pair.left);
  const first = differ.indexOf(true);
  const last = differ.lastIndexOf(true);
  if (first < 0) return [];
  const count = last - first + 1;
  const touched = pairs.slice(first, last + 1);
  const solid = differ.filter((each) => each).length * 2 > count;
  const kind = kindOf(touched, { solid, atStart: first === 0, atEnd: ends && last === pairs.length - 1, share: count / pairs.length });
  return [{ kind, fromBar: pairs[first]?.bar ?? 0, toBar: pairs[last]?.bar ?? 0, amount: kind === 'rightHand' || kind === 'leftHand' ? density(touched) : 0 }];
}

/** 1 where every differing bar keeps its model's notes and adds some, -1 where it leaves some out, otherwise 0. */
function density(touched: readonly Pair[]): number {
  const differing = touched.filter((pair) => !pair.right || !pair.left);
  if (differing.every((pair) => pair.adds)) return 1;
  return differing.every((pair) => pair.omits) ? -1 : 0;
}

/** Whether every element of the first list, shifted, is in the second. */
function includesAll(first: readonly number[], second: readonly number[], shift: number): boolean {
  const there = new Set(second);
  return first.every((each) => there.has(each + shift));
}

/** The name of a change by where it lies and which hand stays. */
function kindOf(touched: readonly Pair[], { solid, atStart, atEnd, share }: { readonly solid: boolean; readonly atStart: boolean; readonly atEnd: boolean; readonly share: number }): ChangeKind {
  // a close with its tune unchanged is a matter of the left hand
  if (touched.every((pair) => pair.right)) return 'leftHand';
  if (solid && atEnd && share <= EDGE_SHARE) return 'close';
  if (solid && atStart && share <= EDGE_SHARE) return 'opening';
  if (touched.every((pair) => pair.left)) return 'rightHand';
  return solid && share > THROUGHOUT_SHARE ? 'throughout' : 'middle';
}
