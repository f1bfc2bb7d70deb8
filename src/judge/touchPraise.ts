/*
 * Praise for the touch: dots that are short all through, slurs that are smooth all through, each hand by itself.
 *
 * What is earned: enough of them to be a habit, not one that was blamed, and in the middle where textbooks and pianists have them.
 */
import { median } from 'simple-statistics';
import { HANDS, type BarFacts, type Hand } from '../measure/index.js';
import { whereInWords } from './placeWords.js';
import type { Dot } from './touchDots.js';
import type { SlurJoin } from './touchSlurs.js';
import type { JudgeInput, Praise } from './types.js';
import { visitPlace } from './visitPlace.js';

/** Fewest dots or joins of a hand (>=) that can be praised. Our own rule. */
const PRAISE_LEAST = 12;

/** Dots that last no more than this (<=) in the middle are crisp: half the value (manuals, common practice). */
const CRISP_SHARE = 0.5;

/** Notes under slurs that last at least this (>=) in the middle are smooth: to the next note but for 30 ms at a common pace. */
const SMOOTH_SHARE = 0.95;

/** Share of the joins (<=) that may be broken in a line that is smooth all the same. Our own rule. */
const SMOOTH_BROKEN = 0.02;

/** What such praise weighs. Our own rule. */
const WEIGHT = 0.3;

/** What was heard. */
interface Heard {
  readonly dots: readonly Dot[];
  readonly joins: readonly SlurJoin[];
}

/** All that was earned. */
export function touchPraise(input: JudgeInput, { dots, joins }: Heard): readonly Praise[] {
  return HANDS.flatMap((hand) => [
    ...praised(input, dots.filter((dot) => dot.hand === hand && !dot.pedalled), { hand, earned: crisp, words: 'the dots are short, every one' }),
    ...praised(input, joins.filter((join) => join.hand === hand), { hand, earned: smooth, words: 'the slurs are smooth' }),
  ]);
}

/** Something of a hand that may be praised. */
interface Praising<T> {
  readonly hand: Hand;
  readonly earned: (trials: readonly T[]) => boolean;
  readonly words: string;
}

/** Praise over the bars where it was heard. */
function praised<T extends { readonly bar: BarFacts }>(input: JudgeInput, trials: readonly T[], { hand, earned, words }: Praising<T>): readonly Praise[] {
  if (trials.length < PRAISE_LEAST || !earned(trials)) return [];
  const places = [...new Set(trials.map(({ bar }) => bar))].map((bar) => visitPlace(bar));
  return [{ aspect: 'touch', hand, places, weight: WEIGHT, text: `${whereInWords(input, hand, places)}: ${words}.` }];
}

/** True for dots of which none is long. */
function crisp(dots: readonly Dot[]): boolean {
  return dots.every(({ bad }) => !bad) && median(dots.map(({ share }) => share)) <= CRISP_SHARE;
}

/** True for joins of which hardly one is broken. */
function smooth(joins: readonly SlurJoin[]): boolean {
  return joins.filter(({ bad }) => bad).length <= SMOOTH_BROKEN * joins.length && median(joins.map(({ share }) => share)) >= SMOOTH_SHARE;
}
