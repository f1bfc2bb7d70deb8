import { describe, expect, it } from 'vitest';
import { rhythmFacts } from '../../src/measure/rhythmFacts.js';
import type { CrossRhythm } from '../../src/measure/index.js';
import type { Occurrence, Score } from '../../src/score/index.js';
import { left, played, right, scoreOf, steady, TICKS, type Written } from './piece.js';

/** One bar of so many to the crotchet in each hand, and a last chord; ticks made whole. */
function crossing(inRight: number, inLeft: number, crotchets = 1): Score {
  const line = (hand: typeof right, parts: number): readonly Written[] => [...Array.from({ length: (4 / crotchets) * parts }, (_, i) => hand(1, 1 + (i * crotchets) / parts, 60, crotchets / parts)), hand(2, 1, 60, 4)];
  const score = scoreOf([...line(right, inRight), ...line(left, inLeft)]);
  const whole = (tick: number): number => Math.round(tick * 1e6) / 1e6;
  return { ...score, occurrences: score.occurrences.map((one) => ({ ...one, onsetTick: whole(one.onsetTick), endTick: whole(one.endTick) })) };
}

function crossings(score: Score, shiftMs: (one: Occurrence) => number | null = () => 0): readonly CrossRhythm[] {
  return rhythmFacts(played(score, { clock: steady(0.6), shiftMs }), { onsets: [], bars: [] }).crossings;
}

describe('cross-rhythms played as written stand on their common grid (common practice)', () => {
  it.each([
    // 3 : 2 on six slots: three at 0 2 4, two at 0 3
    [3, 2, { slots: 6, onRight: [0, 2, 4], onLeft: [0, 3] }],
    // 4 : 3 on twelve: four at 0 3 6 9, three at 0 4 8
    [4, 3, { slots: 12, onRight: [0, 3, 6, 9], onLeft: [0, 4, 8] }],
    [2, 5, { slots: 10, onRight: [0, 5], onLeft: [0, 2, 4, 6, 8] }],
  ])('%d : %d', (inRight, inLeft, { slots, onRight, onLeft }) => {
    const found = crossings(crossing(inRight, inLeft));
    expect(found).toHaveLength(4);
    for (const { ratio, right: ofRight, left: ofLeft } of found) {
      expect(ratio).toEqual([inRight, inLeft]);
      ofRight.places.forEach((place, i) => expect(place * slots).toBeCloseTo(onRight[i]!, 6));
      ofLeft.places.forEach((place, i) => expect(place * slots).toBeCloseTo(onLeft[i]!, 6));
      for (const { written, played: heard } of [...ofRight.strokes, ...ofLeft.strokes]) expect(heard).toBeCloseTo(written, 6);
    }
  });

  it('three against two: each stroke in its place between two of the other hand', () => {
    const [first] = crossings(crossing(3, 2));
    // the second of three at 2 of 0-3, the third at 4 of 3-6; the second of two at 3 of 2-4
    expect(first?.right.strokes.map(({ written }) => Math.round(written * 3))).toEqual([2, 1]);
    expect(first?.left.strokes.map(({ written, wayS }) => [written, Math.round(wayS * 1000)])).toEqual([[0.5, 200]]);
  });

  it('over two beats as well', () => {
    // minim triplets of the right hand against crotchets: 3 : 2 over two crotchets
    expect(crossings(crossing(3, 2, 2)).map(({ ratio, fromTick, toTick }) => [...ratio, fromTick / TICKS, toTick / TICKS])).toEqual([[3, 2, 0, 2], [3, 2, 2, 4]]);
  });

  it('not where both hands divide alike or one the other, nor where a note was missed', () => {
    expect(crossings(crossing(4, 2))).toEqual([]);
    expect(crossings(crossing(3, 3))).toEqual([]);
    expect(crossings(crossing(3, 2), (one) => (one.staff === 1 && one.onsetTick === 160 ? null : 0))).toHaveLength(3);
  });
});
