/*
 * Praise for the rhythm: dots that are sharp, runs that roll, cross-rhythms that sit.
 *
 * What is earned: a rhythm that goes wrong easily, played often and right nearly every time. Plain crotchets earn none.
 */
import { groupBy, sentenceCase } from '../base/index.js';
import { HANDS, type Hand } from '../measure/index.js';
import { isSquared, unevenness } from './rhythmCross.js';
import { againstInWords } from './rhythmCrossWords.js';
import { DOTTED } from './rhythmDots.js';
import { placeOf, type RhythmGround } from './rhythmGround.js';
import type { Finding, Praise } from './types.js';

/** Figures or runs (>=) that make a rhythm worth praising. */
const LEAST_EARNED = 6;

/** The part (>=) of them that must be right. */
const NEARLY_ALL = 0.9;

/** How far (<=) the share of a dotted note may be off to be sharp: three of four good players' are within it. */
const SHARP_WITHIN = 0.04;

/** How far (<=) a stroke may be off its place, as a share of the whole, for a cross-rhythm to sit. */
const SITS_WITHIN = 0.05;

/** Up to this variation (<=) a run is even: professionals' scales have 0.07 (Jabusch 2006). */
const EVEN_VARIATION = 0.1;

/** Quicker than this (<=), ms a note, equal notes are a run. */
const RUN_QUICK_MS = 250;

/** What each weighs: a cross-rhythm is hardest. */
const WEIGHTS = { dots: 0.35, cross: 0.5, runs: 0.4 } as const;

/** One thing that may be right, and whether it was. */
interface Chance {
  readonly stretch: number;
  readonly visitIndex: number;
  readonly hand: Hand;
  readonly right: boolean;
}

/** All that was earned, heaviest first; nothing of what a finding is about. */
export function rhythmPraise(ground: RhythmGround, findings: readonly Finding[]): readonly Praise[] {
  const blamed = new Set(findings.map(({ kind, hand }) => `${kind} ${hand ?? ''}`));
  const free = (hand: Hand | null, kinds: readonly string[]): boolean => kinds.every((kind) => !blamed.has(`${kind} ${hand ?? ''}`));
  const praise = HANDS.flatMap((hand) => [
    ...(free(hand, ['evenDots', 'tripletDots', 'overDotted']) ? earned(ground, dots(ground, hand), { hand, weight: WEIGHTS.dots, heard: 'the dotted pairs are exact' }) : []),
    ...(free(hand, ['unevenRun', 'longShort', 'shortLong']) ? earned(ground, runs(ground, hand), { hand, weight: WEIGHTS.runs, heard: 'the runs are even' }) : []),
  ]);
  const { heard, chances } = crossings(ground);
  const cross = free('right', ['squared']) && free('left', ['squared']) ? earned(ground, chances, { hand: null, weight: WEIGHTS.cross, heard }) : [];
  return [...cross, ...praise].sort((a, b) => b.weight - a.weight);
}

/** Every dotted pair of a hand. */
function dots({ facts }: RhythmGround, hand: Hand): readonly Chance[] {
  return facts.figures.filter((figure) => figure.kind === 'dotted' && figure.hand === hand)
    .map(({ stretch, visitIndex, shares: [share = 0] }) => ({ stretch, visitIndex, hand, right: Math.abs(share - DOTTED) <= SHARP_WITHIN }));
}

/** Every quick run of a hand. */
function runs({ facts }: RhythmGround, hand: Hand): readonly Chance[] {
  return facts.runs.filter((run) => run.hand === hand && run.intervalMs <= RUN_QUICK_MS)
    .map(({ stretch, fromVisit, variation }) => ({ stretch, visitIndex: fromVisit, hand, right: variation <= EVEN_VARIATION }));
}

/** Every crossing of the ratio that comes most often, and its name. */
function crossings({ facts }: RhythmGround): { readonly heard: string; readonly chances: readonly Chance[] } {
  const alike = [...groupBy(facts.crossings, ({ ratio }) => [...ratio].sort((a, b) => b - a).join(':')).values()].sort((a, b) => b.length - a.length)[0] ?? [];
  const ratio = alike[0]?.ratio ?? [3, 2];
  const chances = alike.map((one) => ({ stretch: one.stretch, visitIndex: one.visitIndex, hand: 'right' as const, right: !isSquared(one) && Math.max(unevenness(one.right), unevenness(one.left)) <= SITS_WITHIN }));
  return { heard: `${againstInWords(ratio)} sits`, chances };
}

/** The praise, where nearly all of enough chances were taken. */
function earned(ground: RhythmGround, chances: readonly Chance[], { hand, weight, heard }: { readonly hand: Hand | null; readonly weight: number; readonly heard: string }): readonly Praise[] {
  const taken = chances.filter(({ right }) => right);
  if (chances.length < LEAST_EARNED || taken.length < NEARLY_ALL * chances.length) return [];
  const visits = [...groupBy(taken, ({ stretch, visitIndex }) => `${stretch} ${visitIndex}`).values()].flatMap(([one]) => (one === undefined ? [] : ground.visit(one.stretch, one.visitIndex) ?? []));
  const places = visits.map((visit) => placeOf(ground, [visit], { first: visit, pairs: [] }));
  return places.length === 0 ? [] : [{ aspect: 'rhythm', hand, places, weight, text: `${hand === null ? sentenceCase(heard) : `${sentenceCase(hand)} hand: ${heard}`} throughout.` }];
}
