/*
 * Groups of two and three: quavers swung or limping, triplets shared out in quarters, long-short pairs evened.
 *
 * What is a fault: most groups of a bar show it, and clearly. One group leans for expression; a bar of them is a rhythm. Under a
 * heading "swing" the long-short is asked for, from 1.3 to 3 to one, and straight is the fault.
 */
import { median } from 'simple-statistics';
import { groupBy } from '../base/index.js';
import type { BarFacts, RhythmFigure } from '../measure/index.js';
import { findingOf, LEAST_OFF_MS, type Found, type RhythmGround } from './rhythmGround.js';
import type { Finding } from './types.js';

/** From this share (>=) of the first (or the second) of two equal notes on they are uneven: three to two. Good players' bars stay below. */
export const UNEVEN_SHARE = 0.6;

/** From this share (>=) on two quavers swing: 1.3 to one. */
export const SWING_SHARE = 1.3 / 2.3;

/** Pairs (>=) that make a lilt: where a bar has fewer, the bars near it are heard with it. */
const LEAST_PAIRS = 4;

/** Bars (<=) to either side that are heard with it. */
const BARS_NEAR = 2;

/** The part (>=) of them that must lean the same way as far as a swing: single pairs scatter. */
const LEANING_PART = 0.75;

/** Fewest pairs (>=) of a piece that say whether it swings. */
const LEAST_SWUNG = 8;

/** From this share (>=) on, one of three alike has taken the time of two quarters: the middle of a third and a half is 0.417, a little further. */
export const QUARTERS_SHARE = 0.44;

/** The other two then stand within this ratio (<=) of each other: below it one of them is long too, and the triplet only leans. */
const QUARTERS_RATIO = 1.5;

/** Triplets (>=) that make a habit, of a bar or of the bars near it. */
const LEAST_TRIPLETS = 3;

/** Up to this share (<=) a crotchet and a quaver of compound time are even: good players' go down to 0.56. */
export const LONG_SHORT_EVEN_UP_TO = 0.535;

/** The crotchet must be at most this part (<=) of its written length by the tempo around: even, it keeps three quarters. */
const SHORTENED = 0.9;

/** A group that takes this many times its time (>=) is a hesitation. */
const SLOW_TIMES = 1.5;

/** How sure we are. Long-short pairs are bent in every dance: less. */
const CONFIDENCE = { uneven: 0.8, straight: 0.8, quarters: 0.8, evened: 0.65 } as const;

/** What one bar's groups show: the groups that show it, how far on average, and what is said. */
type Shown = Pick<Found, 'kind' | 'value' | 'unit' | 'threshold' | 'ratio' | 'confidence'> & { readonly figures: readonly RhythmFigure[] };

/** Findings of all groups of two and three. */
export function groupFindings(ground: RhythmGround): readonly Finding[] {
  const usable = ground.facts.figures.filter(({ spanTimes }) => (spanTimes ?? 1) < SLOW_TIMES);
  const alike = [...groupBy(usable, ({ kind, stretch, hand, fromTick, toTick }) => `${kind} ${hand} ${stretch} ${toTick - fromTick}`).values()];
  return [...alike.flatMap((figures) => inBars(ground, figures)), ...straight(ground, usable)];
}

/** Findings of like groups of one hand in one stretch, bar by bar. */
function inBars(ground: RhythmGround, figures: readonly RhythmFigure[]): readonly Finding[] {
  const bars = groupBy(figures, ({ visitIndex }) => visitIndex);
  return [...bars].flatMap(([visitIndex, own]) => {
    const visit = ground.visit(own[0]?.stretch ?? -1, visitIndex);
    const near = Array.from({ length: 2 * BARS_NEAR + 1 }, (_, i) => bars.get(visitIndex - BARS_NEAR + i) ?? []).flat();
    const shown = shownBy(own, { near, swing: ground.swing });
    return visit === undefined || shown === null ? [] : told(ground, visit, shown);
  });
}

/** The finding of one bar; the topic of equal notes is their written length in crotchets. */
function told(ground: RhythmGround, visit: BarFacts, { figures, ...shown }: Shown): readonly Finding[] {
  const [first] = figures;
  const topic = first?.kind === 'even' ? String((first.toTick - first.fromTick) / 2 / ground.input.score.ticksPerQuarter) : '';
  return findingOf(ground, { ...shown, topic, hand: first?.hand ?? null, visits: [visit], pairs: figures.flatMap(({ pairs }) => pairs) });
}

/** What like groups of one hand in one bar show. @param figures at least one */
function shownBy(figures: readonly RhythmFigure[], { near, swing }: { readonly near: readonly RhythmFigure[]; readonly swing: boolean }): Shown | null {
  const [first] = figures;
  if (first?.kind === 'three') return quartered(figures, near);
  if (first?.kind === 'even') return swing ? null : uneven(figures, near);
  return first?.kind === 'longShort' ? evened(figures, near) : null;
}

/** Two equal notes that are long-short or short-long all through the bar, or through the bars around where it has few. */
function uneven(figures: readonly RhythmFigure[], near: readonly RhythmFigure[]): Shown | null {
  const heard = figures.length >= LEAST_PAIRS ? figures : near;
  const middle = median(heard.map(firstShare));
  const long = Math.max(middle, 1 - middle);
  const leans = (figure: RhythmFigure): boolean => (middle > 0.5 ? firstShare(figure) : 1 - firstShare(figure)) >= SWING_SHARE && offMs(figure, firstShare(figure) - 0.5) >= LEAST_OFF_MS;
  if (heard.length < LEAST_PAIRS || long < UNEVEN_SHARE || heard.filter(leans).length < LEANING_PART * heard.length || !figures.some(leans)) return null;
  return { kind: middle > 0.5 ? 'longShort' : 'shortLong', figures: figures.filter(leans), value: long / (1 - long), unit: 'to one', threshold: UNEVEN_SHARE / (1 - UNEVEN_SHARE), ratio: (long - 0.5) / (UNEVEN_SHARE - 0.5), confidence: CONFIDENCE.uneven };
}

/** Share of the first note. */
function firstShare({ shares: [share = 0.5] }: RhythmFigure): number {
  return share;
}

/** Shares of all three. */
function restOf({ shares: [one = 0, two = 0] }: RhythmFigure): readonly number[] {
  return [one, two, 1 - one - two];
}

/** How far a note is off, ms, by how far its share is. */
function offMs({ spanS }: RhythmFigure, share: number): number {
  return Math.abs(share) * spanS * 1000;
}

/** One of three took the time of two, the others shared the rest. */
function isQuartered(figure: RhythmFigure): boolean {
  const [low = 0, middle = 0, high = 0] = [...restOf(figure)].sort((a, b) => a - b);
  return high >= QUARTERS_SHARE && middle <= QUARTERS_RATIO * low;
}

/** Triplets played as two semiquavers and a quaver, in whatever order, through the bar or through the bars around. */
function quartered(figures: readonly RhythmFigure[], near: readonly RhythmFigure[]): Shown | null {
  const isClear = (figure: RhythmFigure): boolean => isQuartered(figure) && offMs(figure, Math.max(...restOf(figure)) - 1 / 3) >= LEAST_OFF_MS;
  const heard = figures.length >= LEAST_TRIPLETS ? figures : near;
  const found = figures.filter(isClear);
  if (heard.length < LEAST_TRIPLETS || heard.filter(isClear).length < LEANING_PART * heard.length || found.length === 0) return null;
  const high = median(found.map((figure) => Math.max(...restOf(figure))));
  return { kind: 'quarteredTriplets', figures: found, value: 100 * high, unit: '%', threshold: 100 * QUARTERS_SHARE, ratio: (high - 1 / 3) / (QUARTERS_SHARE - 1 / 3), confidence: CONFIDENCE.quarters };
}

/** Crotchet and quaver of compound time played alike, through the bar or through the bars around. */
function evened(figures: readonly RhythmFigure[], near: readonly RhythmFigure[]): Shown | null {
  const isEven = (figure: RhythmFigure): boolean => firstShare(figure) <= LONG_SHORT_EVEN_UP_TO && firstShare(figure) * (figure.spanTimes ?? 1) <= (SHORTENED * 2) / 3;
  const heard = figures.length >= LEAST_PAIRS ? figures : near;
  const found = figures.filter(isEven);
  if (heard.length < LEAST_PAIRS || heard.filter(isEven).length < LEANING_PART * heard.length || found.length === 0) return null;
  const share = median(found.map(firstShare));
  return { kind: 'evenLongShort', figures: found, value: share / (1 - share), unit: 'to one', threshold: LONG_SHORT_EVEN_UP_TO / (1 - LONG_SHORT_EVEN_UP_TO), ratio: (2 / 3 - share) / (2 / 3 - LONG_SHORT_EVEN_UP_TO), confidence: CONFIDENCE.evened };
}

/** Under a heading "swing": quavers that are straight all through the piece; told of every bar that has some. */
function straight(ground: RhythmGround, figures: readonly RhythmFigure[]): readonly Finding[] {
  const crotchet = ground.input.score.ticksPerQuarter;
  const pairs = ground.swing ? figures.filter(({ kind, fromTick, toTick, against }) => kind === 'even' && toTick - fromTick === crotchet && against !== 3) : [];
  if (pairs.length < LEAST_SWUNG || median(pairs.map(({ shares: [share = 0.5] }) => share)) >= SWING_SHARE) return [];
  const barsOf = [...groupBy(pairs, ({ stretch, visitIndex, hand }) => `${hand} ${stretch} ${visitIndex}`).values()];
  return barsOf.flatMap((bar) => {
    const visit = ground.visit(bar[0]?.stretch ?? -1, bar[0]?.visitIndex ?? -1);
    const share = median(bar.map(({ shares: [one = 0.5] }) => one));
    if (visit === undefined || share >= SWING_SHARE) return [];
    return told(ground, visit, { kind: 'straight', figures: bar, value: share / (1 - share), unit: 'to one', threshold: SWING_SHARE / (1 - SWING_SHARE), ratio: 1 + (SWING_SHARE - share) / (SWING_SHARE - 0.5), confidence: CONFIDENCE.straight });
  });
}
