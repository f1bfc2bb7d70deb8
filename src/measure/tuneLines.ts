/*
 * The teacher's question: which line carries the tune?
 *
 * Conventions: unfolded ticks; one answer a bar of the playing order. Lines are the upper and the lower line of each hand: a note belongs to
 *   the upper line where no higher note of the hand is struck with it or still held over it.
 * Method: in each bar, with the bars beside it, a line is the more tune-like the more it moves by steps and thirds, the less it repeats
 *   notes or leaps, the more its lengths vary, the longer it sounds against the rest, and the more it stands alone in its hand. The right hand's upper
 *   line has a start over the others. The path of best sum is taken, where a change of line costs something.
 * Source: our own rule, from what makes a line a melody in the trade: singable steps, varied rhythm, sustained sound.
 * What it does not tell: a tune handed on within a bar, or shared out between voices. Where two lines are nearly as good the confidence is low; a fugue is told as counterpoint.
 */
import { quantile } from 'simple-statistics';
import { firstIndex, groupBy } from '../base/index.js';
import type { Occurrence, Score } from '../score/index.js';
import { handOf, type Hand } from './hands.js';

/** A line of one hand. */
export interface Line {
  readonly hand: Hand;
  readonly line: 'top' | 'bass';
}

/** The tune of one bar of the playing order. */
export interface BarTune extends Line {
  /** Place in `Score.order`. */
  readonly visitIndex: number;
  /** 0-1: lead over the best line of the other hand. */
  readonly confidence: number;
  /** How like a tune that other line is, without any start. */
  readonly rivalLikeness: number;
  /** 0-1: share of the fewer notes of the two lines that begin together. */
  readonly together: number;
}

/** Lines that can carry a tune, with the start each has: tunes lie on top by default, inside least often. Our own rule. */
const LINES: readonly (Line & { readonly start: number })[] = [
  { hand: 'right', line: 'top', start: 0.7 }, { hand: 'left', line: 'top', start: 0.1 }, { hand: 'left', line: 'bass', start: 0 }, { hand: 'right', line: 'bass', start: -0.4 },
];

/** What each trait adds. Our own rule; signs as in the header. */
const TRAITS = { steps: 1, repeats: -0.7, leaps: -0.5, variety: 0.6, sounding: 0.4, longer: 0.4, alone: 0.4 } as const;

/** What it costs to go over to another line, in the same measure. */
const CHANGE_COST = 1.5;

/** Intervals up to this (<=) are steps and thirds, from this on (>=) leaps; semitones. */
const THIRD = 4;
const LEAP = 8;

/** Fewest notes (>=) of a line around a bar. */
const LEAST_NOTES = 3;

/** A line that is this like (>=) is a tune of its own. Our own rule: steps, sound and varied lengths together. */
const TUNE_LIKENESS = 1.6;

/** Lines go their own ways where less (<) than this share of their onsets falls together. Our own rule. */
const OWN_WAY_SHARE = 0.9;

/** Score of a line that is hardly there. */
const ABSENT = -1;

/** The line that carries the tune, bar by bar of the playing order. */
export function tuneLines(score: Score): readonly BarTune[] {
  const lines = LINES.map((line) => ({ ...line, notes: lineNotes(score, line) }));
  const hands = Object.fromEntries(groupBy(sounding(score), handOf));
  const scores = score.order.map((visit) => {
    const [from, to] = window(score, visit.index);
    return lines.map(({ start, hand, notes }) => start + likeness(inside(notes, from, to), { hand: inside(hands[hand] ?? [], from, to), all: inside(score.occurrences, from, to), length: to - from }));
  });
  const path = bestPath(scores);
  return score.order.map((visit, i) => {
    const best = path[i] ?? 0;
    const { hand, line } = LINES[best] ?? { hand: 'right' as const, line: 'top' as const };
    const row = scores[i] ?? [];
    const rival = argMax(row.map((one, other) => (LINES[other]?.hand === hand ? -Infinity : one)));
    const [from, to] = window(score, visit.index);
    const [mine = [], theirs = []] = [best, rival].map((place) => inside(lines[place]?.notes ?? [], from, to));
    return { visitIndex: visit.index, hand, line, confidence: Math.min(1, Math.max(0, (row[best] ?? 0) - (row[rival] ?? 0))), rivalLikeness: (row[rival] ?? 0) - (LINES[rival]?.start ?? 0), together: togetherShare(mine, theirs) };
  });
}

/** True where both hands have tunes of their own, as in a fugue: the lines are alike, and go their own ways, in most bars. */
export function isCounterpoint(tunes: readonly BarTune[]): boolean {
  const middle = (pick: (tune: BarTune) => number): number => quantile(tunes.map(pick), 0.5);
  return tunes.length > 0 && middle(({ rivalLikeness }) => rivalLikeness) >= TUNE_LIKENESS && middle(({ together }) => together) < OWN_WAY_SHARE;
}

/** Whether a note belongs to a line, for all notes: places in `Score.occurrences`. */
export function lineMembers(score: Score, line: Line): ReadonlySet<number> {
  return new Set(lineNotes(score, line).map(({ index }) => index));
}

/** Notes of a line, in order. */
function lineNotes(score: Score, { hand, line }: Line): readonly Occurrence[] {
  const sign = line === 'top' ? 1 : -1;
  const moments = groupBy(sounding(score).filter((one) => handOf(one) === hand), ({ onsetTick }) => onsetTick);
  let held: readonly Occurrence[] = [];
  return [...moments].flatMap(([tick, chord]) => {
    held = held.filter(({ endTick }) => endTick > tick);
    const outer = chord.reduce((best, one) => (sign * one.midi > sign * best.midi ? one : best));
    const covered = held.some(({ midi }) => sign * midi > sign * outer.midi);
    held = [...held, ...chord];
    return covered ? [] : [outer];
  });
}

/** Everything but grace notes. */
function sounding(score: Score): readonly Occurrence[] {
  return score.occurrences.filter(({ onsetTick, endTick }) => endTick > onsetTick);
}

/** The bar with the one before and the one after, unfolded ticks. */
function window(score: Score, visit: number): readonly [number, number] {
  const last = score.order[Math.min(score.order.length - 1, visit + 1)];
  const lastTicks = score.bars[last?.barIndex ?? -1]?.lengthTicks ?? 0;
  return [score.order[Math.max(0, visit - 1)]?.startTick ?? 0, (last?.startTick ?? 0) + lastTicks];
}

/** Notes that begin inside. */
function inside(notes: readonly Occurrence[], from: number, to: number): readonly Occurrence[] {
  const first = firstIndex(notes.length, (i) => (notes[i]?.onsetTick ?? Infinity) >= from);
  return notes.slice(first, firstIndex(notes.length, (i) => (notes[i]?.onsetTick ?? Infinity) >= to, first));
}

/** What a line is judged beside. */
interface Beside {
  readonly hand: readonly Occurrence[];
  readonly all: readonly Occurrence[];
  readonly length: number;
}

/** How like a tune a line is. */
function likeness(notes: readonly Occurrence[], { hand, all, length }: Beside): number {
  if (notes.length < LEAST_NOTES) return ABSENT;
  const intervals = notes.slice(1).map((note, i) => Math.abs(note.midi - (notes[i]?.midi ?? note.midi)));
  const share = (test: (interval: number) => boolean): number => intervals.filter(test).length / intervals.length;
  const lengths = notes.map(lengthOf);
  const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;
  return TRAITS.steps * share((one) => one > 0 && one <= THIRD)
    + TRAITS.repeats * share((one) => one === 0)
    + TRAITS.leaps * share((one) => one >= LEAP)
    + TRAITS.variety * Math.min(1, (new Set(lengths).size - 1) / 2)
    + TRAITS.sounding * Math.min(1, lengths.reduce((sum, one) => sum + one, 0) / length)
    + TRAITS.longer * Math.min(1, Math.max(-1, Math.log2(mean(lengths) / mean(all.filter((one) => one.endTick > one.onsetTick).map(lengthOf)))))
    + (TRAITS.alone * new Set(hand.map(({ onsetTick }) => onsetTick)).size) / hand.length;
}

function lengthOf({ onsetTick, endTick }: Occurrence): number {
  return endTick - onsetTick;
}

/** Share of the fewer notes that begin together with one of the others; 1 where there are none. */
function togetherShare(some: readonly Occurrence[], others: readonly Occurrence[]): number {
  const [few, many] = some.length <= others.length ? [some, others] : [others, some];
  const ticks = new Set(many.map(({ onsetTick }) => onsetTick));
  return few.length === 0 ? 1 : few.filter(({ onsetTick }) => ticks.has(onsetTick)).length / few.length;
}

/** The line of each bar along the path of greatest sum. */
function bestPath(scores: readonly (readonly number[])[]): readonly number[] {
  const back: number[][] = [];
  let sums: readonly number[] = LINES.map(() => 0);
  for (const row of scores) {
    const from = LINES.map((_, to) => argMax(sums.map((sum, at) => sum - (at === to ? 0 : CHANGE_COST))));
    back.push(from);
    sums = from.map((at, to) => (sums[at] ?? 0) - (at === to ? 0 : CHANGE_COST) + (row[to] ?? 0));
  }
  const path: number[] = [];
  let at = argMax(sums);
  for (let i = scores.length - 1; i >= 0; i -= 1) {
    path[i] = at;
    at = back[i]?.[at] ?? at;
  }
  return path;
}

/** Place of the greatest, the first of equals. */
function argMax(values: readonly number[]): number {
  return values.reduce((best, value, i) => (value > (values[best] ?? -Infinity) ? i : best), 0);
}
