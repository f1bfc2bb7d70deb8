/*
 * The teacher's question: where the hands divide the time differently, three against two and the like, does each keep to its own?
 *
 * Conventions: a crossing is the shortest stretch of time (part of a beat, a beat, two, the bar) that each hand divides evenly, into
 *   numbers without a common divisor; `ratio` is right hand, then left. Each stroke that is written between two of the other hand
 *   has its place there: `written` and `played` are shares of the way from the one to the other, 0-1 where it stays between them.
 * Method: onsets of a hand are medians of their chords. Shares of the way between two strokes of the other hand do not change with
 *   the tempo, so that rubato is no fault. Strokes before the first or after the last of the other hand are held against the end of the crossing.
 * Source: 3 : 2 on six slots strikes at 0 2 3 4, 4 : 3 on twelve at 0 3 4 6 8 9 (least common multiple: common practice).
 * What it does not tell: cross-rhythms within one hand; those in which a note was missed, ornamented, rolled or
 *   played before the one it should follow.
 */
import { commonDivisor } from '../analysis/index.js';
import { firstIndex } from '../base/index.js';
import { beatTicks, type Score } from '../score/index.js';
import type { Hand } from './hands.js';
import { bothHands, firstAtOrAfter, type PulseLines, type PulsePoint } from './pulsePoints.js';
import type { CrossHand, CrossRhythm, CrossStroke, VoiceLine } from './rhythmTypes.js';

/** Finest division (<=) that is looked for: nine in the time of eight and the like are still played as such. */
const FINEST = 9;

/** What crossings of one stretch are read from. */
interface CrossGround {
  readonly score: Score;
  readonly lines: PulseLines;
  readonly voices: readonly VoiceLine[];
  readonly stretch: number;
}

/** Every crossing of a stretch that was played whole, in order of time. */
export function crossRhythms(ground: CrossGround): readonly CrossRhythm[] {
  const written = { right: ticksOf(ground.voices, 'right'), left: ticksOf(ground.voices, 'left') };
  const visits = [...new Set(ground.voices.flatMap(({ moments }) => moments.map(({ visitIndex }) => visitIndex)))].sort((a, b) => a - b);
  return visits.flatMap((visitIndex) => spansOf(ground.score, visitIndex).reduce<readonly CrossRhythm[]>((found, [fromTick, toTick]) => {
    if (found.some((one) => one.fromTick < toTick && one.toTick > fromTick)) return found;
    const partsIn = (hand: Hand): number => partsOf(within(written[hand], (tick) => tick, [fromTick, toTick]), fromTick, toTick);
    const ratio = [partsIn('right'), partsIn('left')] as const;
    if (ratio[0] < 2 || ratio[1] < 2 || commonDivisor(ratio[0], ratio[1]) > 1) return found;
    const crossing = playedCrossing(ground, { visitIndex, fromTick, toTick, ratio });
    return crossing === null ? found : [...found, crossing];
  }, []).toSorted((a, b) => a.fromTick - b.fromTick));
}

/** Ticks at which a hand is written to strike. */
function ticksOf(voices: readonly VoiceLine[], hand: Hand): readonly number[] {
  return [...new Set(voices.filter((line) => line.hand === hand).flatMap(({ moments }) => moments.map(({ tick }) => tick)))].sort((a, b) => a - b);
}

/** Stretches of a bar that are looked at, the shortest first. */
function spansOf(score: Score, visitIndex: number): readonly (readonly [fromTick: number, toTick: number])[] {
  const visit = score.order[visitIndex];
  const bar = score.bars[visit?.barIndex ?? -1];
  if (visit === undefined || bar === undefined) return [];
  const beat = beatTicks(score, bar);
  const lengths = [beat / 3, beat / 2, beat, 2 * beat, bar.nominalTicks].filter((ticks) => Number.isInteger(ticks) && bar.lengthTicks % ticks === 0);
  return [...new Set(lengths)].sort((a, b) => a - b).flatMap((ticks) => Array.from({ length: bar.lengthTicks / ticks }, (_, i) => [visit.startTick + i * ticks, visit.startTick + (i + 1) * ticks] as const));
}

/** Into how many equal parts some ticks divide a stretch of time; 0 where they do not. */
function partsOf(ticks: readonly number[], fromTick: number, toTick: number): number {
  const parts = ticks.length;
  return parts <= FINEST && ticks.every((tick, i) => (tick - fromTick) * parts === i * (toTick - fromTick)) ? parts : 0;
}

/** A crossing on paper. */
type Written = Pick<CrossRhythm, 'visitIndex' | 'fromTick' | 'toTick' | 'ratio'>;

/** The crossing as it was played; null where a stroke or the next beat is missing. */
function playedCrossing({ lines, voices, stretch }: CrossGround, crossing: Written): CrossRhythm | null {
  const { fromTick, toTick, ratio } = crossing;
  const end = bothHands(inSpan(lines, toTick, toTick + 1))[0];
  const { right, left } = inSpan(lines, fromTick, toTick);
  if (end === undefined || right.length !== ratio[0] || left.length !== ratio[1]) return null;
  const start = bothHands({ right: right.slice(0, 1), left: left.slice(0, 1) })[0];
  if (start === undefined || end.onsetS <= start.onsetS || ![right, left].every(inOrder)) return null;
  const handOf = (hand: Hand, own: readonly PulsePoint[], other: readonly PulsePoint[]): CrossHand => ({
    places: own.map(({ onsetS }) => (onsetS - start.onsetS) / (end.onsetS - start.onsetS)), strokes: strokesOf(own, [...other, end]),
    pairs: voices.filter((line) => line.hand === hand).flatMap(({ moments }) => within(moments, ({ tick }) => tick, [fromTick, toTick]).flatMap(({ pairs }) => pairs)),
  });
  return { ...crossing, stretch, right: handOf('right', right, left), left: handOf('left', left, right) };
}

/** What stands from one tick (inclusive) to another (exclusive), of a list in order of ticks, by halving. */
function within<T>(list: readonly T[], tickOf: (one: T) => number, [fromTick, toTick]: readonly [number, number]): readonly T[] {
  const place = (tick: number): number => firstIndex(list.length, (i) => { const one = list[i]; return one === undefined || tickOf(one) >= tick; });
  return list.slice(place(fromTick), place(toTick));
}

/** True where what is written later came later. */
function inOrder(points: readonly PulsePoint[]): boolean {
  return points.every(({ onsetS }, i) => onsetS > (points[i - 1]?.onsetS ?? -Infinity));
}

/** The points of both hands from one tick (inclusive) to another (exclusive). */
function inSpan({ right, left }: PulseLines, ...span: readonly [fromTick: number, toTick: number]): PulseLines {
  return { right: within(right, ({ tick }) => tick, span), left: within(left, ({ tick }) => tick, span) };
}

/** Where the strokes of one hand come between those of the other; those that are written together are left out. */
function strokesOf(own: readonly PulsePoint[], other: readonly PulsePoint[]): readonly CrossStroke[] {
  return own.flatMap(({ tick, onsetS }): readonly CrossStroke[] => {
    const place = firstAtOrAfter(other, tick);
    const [before, after] = [other[place - 1], other[place]];
    if (before === undefined || after === undefined || after.tick === tick || after.onsetS <= before.onsetS) return [];
    return [{ written: (tick - before.tick) / (after.tick - before.tick), played: (onsetS - before.onsetS) / (after.onsetS - before.onsetS), wayS: after.onsetS - before.onsetS }];
  });
}
