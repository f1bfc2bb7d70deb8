/*
 * The hands together: one that lags, one that runs ahead.
 *
 * What is a fault: a hand that is behind over several moments on end, by more than is heard beyond what is usual with this player. A tune
 * that leads by 20-30 ms is normal (Goebl 2001), a left hand a little first, up to 80 ms, is style, and single moments are
 * spread for expression; a left hand that always lags is a fault. Beyond a quarter of a second it is no longer together
 * and is heard as a wrong beat. Hands that strike evenly in turn, far apart, do not lag: that is a broken way of playing what is
 * written together, as some editions print it.
 */
import { median } from 'simple-statistics';
import { groupBy } from '../base/index.js';
import type { BarFacts, HandsMoment } from '../measure/index.js';
import { findingOf, type RhythmGround } from './rhythmGround.js';
import type { Finding } from './types.js';

/** How far behind is heard (>=), ms, beyond the usual lead of the tune: twice the 22 ms at which order is heard three times in four, and less than the 60 ms beyond which it nearly always is (Sapp). */
export const BEHIND_MS = 45;

/** Most that a tune usually leads by, ms (Goebl 2001: 20-30). */
export const USUAL_LEAD_MS = 30;

/** How far the left hand may come first (<=), ms, as style: common practice. */
export const LEFT_FIRST_MS = 80;

/** Further apart (>), ms, two notes do not belong together any more. */
const TOGETHER_AT_ALL_MS = 250;

/** From so far apart on (>=), ms, and within this of half of the way to the next stroke (<=), the hands strike in turn. Our own rule: no hand lags so far and so evenly. */
const IN_TURN_MS = 150;
const IN_TURN_WITHIN = 0.1;

/** A bar belongs to a stretch that lags from this part (>=) of what is heard on: single bars scatter. */
const LEANING = 0.6;

/** The part (>=) of the bars of such a stretch that must show it clearly. */
const CLEAR_PART = 0.5;

/** Fewest moments (>=) that make a habit of a place: over fewer it is expression or a slip. */
const LEAST_MOMENTS = 4;

/** How sure we are from so few moments, and what each further one adds, up to the most. */
const CONFIDENCE = { least: 0.7, further: 0.05, most: 0.95 } as const;

/** One visit with its moments together. */
interface Visit {
  readonly bar: BarFacts;
  readonly offsMs: readonly number[];
  /** The same as shares of the way to the next stroke, where there is one. */
  readonly ofSteps: readonly number[];
}

/** Which hand lags. */
type Lagging = 'left' | 'right';

/** Findings of the hands. */
export function handsFindings(ground: RhythmGround): readonly Finding[] {
  const moments = ground.facts.hands.filter(({ leftLateMs }) => Math.abs(leftLateMs) <= TOGETHER_AT_ALL_MS);
  if (moments.length < LEAST_MOMENTS) return [];
  const usualMs = Math.min(Math.max(median(moments.map(({ leftLateMs }) => leftLateMs)), 0), USUAL_LEAD_MS);
  return [...groupBy(visitsOf(ground, moments), ({ bar }) => bar.stretch).values()].flatMap((visits) => stretchesOf(visits, usualMs).flatMap(({ behind, part }) => lagging(ground, part, { behind, usualMs })));
}

/** Visits at which both hands strike, in order of time. */
function visitsOf(ground: RhythmGround, moments: readonly HandsMoment[]): readonly Visit[] {
  return [...groupBy(moments, ({ stretch, visitIndex }) => `${stretch} ${visitIndex}`).values()].flatMap((group) => {
    const [first] = group;
    const bar = first === undefined ? undefined : ground.visit(first.stretch, first.visitIndex);
    return bar === undefined ? [] : [{ bar, offsMs: group.map(({ leftLateMs }) => leftLateMs), ofSteps: group.flatMap(({ ofStep }) => ofStep ?? []) }];
  });
}

/** Neighbouring visits in which the same hand lags, its edges cut to where it is heard, as far as enough remains. */
function stretchesOf(visits: readonly Visit[], usualMs: number): readonly { readonly behind: Lagging; readonly part: readonly Visit[] }[] {
  const out: { behind: Lagging; part: Visit[] }[] = [];
  let open: Lagging | null = null;
  for (const visit of visits) {
    const behind = behindIn(middleOf([visit]), usualMs);
    const last = out.at(-1);
    if (behind !== null && behind === open && last !== undefined) last.part.push(visit);
    else if (behind !== null) out.push({ behind, part: [visit] });
    open = behind;
  }
  return out.flatMap(({ behind, part }) => {
    const clear = (visit: Visit): boolean => excess(behind, middleOf([visit]), usualMs) >= 1;
    // a few of many bars that lean come out clear by chance
    return part.filter(clear).length >= CLEAR_PART * part.length ? [{ behind, part: trimmed(part, clear) }] : [];
  });
}

/** Without the first and last visits that do not show it clearly, as long as enough moments are left. */
function trimmed(part: readonly Visit[], clear: (visit: Visit) => boolean): readonly Visit[] {
  const first = part.findIndex(clear);
  const inner = first < 0 ? [] : part.slice(first, part.findLastIndex(clear) + 1);
  return inner.flatMap(({ offsMs }) => offsMs).length >= LEAST_MOMENTS ? inner : part;
}

/** Median of all moments of some visits, ms. */
function middleOf(visits: readonly Visit[]): number {
  return median(visits.flatMap(({ offsMs }) => offsMs));
}

/** How far a hand is behind, in times of what is heard. */
function excess(behind: Lagging, leftLateMs: number, usualMs: number): number {
  return behind === 'left' ? (leftLateMs - usualMs) / BEHIND_MS : -leftLateMs / LEFT_FIRST_MS;
}

/** Which hand leans behind in one visit, be it less than is heard there alone. */
function behindIn(leftLateMs: number, usualMs: number): Lagging | null {
  return (['left', 'right'] as const).find((hand) => excess(hand, leftLateMs, usualMs) >= LEANING) ?? null;
}

/** One finding for a stretch of bars. */
function lagging(ground: RhythmGround, part: readonly Visit[], { behind, usualMs }: { readonly behind: Lagging; readonly usualMs: number }): readonly Finding[] {
  const moments = part.flatMap(({ offsMs }) => offsMs).length;
  const middle = middleOf(part);
  if (moments < LEAST_MOMENTS || inTurn(part)) return [];
  const [value, threshold] = behind === 'left' ? [middle, usualMs + BEHIND_MS] : [-middle, LEFT_FIRST_MS];
  return findingOf(ground, {
    kind: 'behind', hand: behind, visits: part.map(({ bar }) => bar), pairs: [], value, unit: 'ms', threshold, ratio: excess(behind, middle, usualMs),
    confidence: Math.min(CONFIDENCE.most, CONFIDENCE.least + CONFIDENCE.further * (moments - LEAST_MOMENTS)),
  });
}

/** True where the hands strike evenly one after the other. */
function inTurn(part: readonly Visit[]): boolean {
  const ofSteps = part.flatMap((visit) => visit.ofSteps);
  return ofSteps.length > 0 && Math.abs(middleOf(part)) >= IN_TURN_MS && Math.abs(median(ofSteps) - 0.5) <= IN_TURN_WITHIN;
}
