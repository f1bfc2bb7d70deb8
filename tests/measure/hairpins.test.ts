import { describe, expect, it } from 'vitest';
import { hairpinsPlayed, trendOf } from '../../src/measure/hairpins.js';
import type { HairpinPlayed } from '../../src/measure/levelTypes.js';
import { marksAsked } from '../../src/measure/marksAsked.js';
import { struckNotes } from '../../src/measure/struck.js';
import type { Occurrence } from '../../src/score/index.js';
import { marked, struck, type Mark } from './loudness.js';
import { left, played, right, scoreOf, steady, TICKS, type Written } from './piece.js';

describe('a robust slope', () => {
  it('of four moments is the median of the slopes between those far enough apart', () => {
    // x 0, 1/3, 2/3, 1 with 50, 53, 58, 59: slopes 9, 12, 9 | 15, 9 | 3, in order 3 9 9 9 12 15: the median is 9
    const trend = trendOf([50, 53, 58, 59].map((y, i) => ({ x: i / 3, y })));
    expect(trend?.units).toBeCloseTo(9, 9);
    // about that line 50, 50, 52, 50: median absolute deviation 0
    expect(trend?.errorUnits).toBe(0);
  });

  it('is not swayed by one accent, and knows its scatter', () => {
    // nine moments along 40 … 56, one of them 30 too loud
    const trend = trendOf(Array.from({ length: 9 }, (_, i) => ({ x: i / 8, y: 40 + 2 * i + (i === 4 ? 30 : 0) })));
    expect(trend?.units).toBeCloseTo(16, 9);
    // 50 and 54 in turn over eight moments: of the 21 slopes 12 are 0, 6 upwards and 3 downwards, so the median is 0; every moment lies 2 off the
    // middle, 52: 2 / 0.6745 = 2.965, over the spread of x, √(Σ (i − 3.5)² / 49) = √(42 / 49) = 0.9258
    const scattered = trendOf(Array.from({ length: 8 }, (_, i) => ({ x: i / 7, y: 50 + 4 * (i % 2) })));
    expect(scattered?.units).toBe(0);
    expect(scattered?.errorUnits).toBeCloseTo(3.203, 3);
  });

  it('of fewer than four moments is none', () => {
    expect(trendOf([{ x: 0, y: 1 }, { x: 0.5, y: 2 }, { x: 1, y: 3 }])).toBeNull();
  });
});

const same: Written[] = Array.from({ length: 16 }, (_, i) => right(1 + Math.floor(i / 4), 1 + (i % 4), 60));

function pins(written: readonly Written[], marks: readonly Mark[], velocityOf: (one: Occurrence) => number): readonly HairpinPlayed[] {
  const score = marked(scoreOf(written), ...marks);
  return hairpinsPlayed(score, struckNotes(struck(played(score, { clock: steady(0.5) }), velocityOf)), marksAsked(score));
}

describe('a hairpin as played', () => {
  it('goes from its beginning to the moment it leads to', () => {
    // bars 2-3, eight crotchets: 2 units each from 50 make 16 at the downbeat of bar 4
    const [pin] = pins(same, [{ bar: 2, text: '<', until: [4, 1] }], ({ onsetTick }) => 50 + 2 * (onsetTick / TICKS - 4));
    expect(pin).toMatchObject({ kind: 'crescendo', hand: null, visitIndex: 1, untilVisit: 2, startS: 2 });
    expect(pin?.made).toBeCloseTo(16, 9);
    expect(pin?.errorUnits).toBeCloseTo(0, 9);
  });

  it('is made as asked: the same growth under a diminuendo goes the wrong way', () => {
    // the slope is -16; thirds: (50 + 52 + 54) / 3 = 52 against (62 + 64 + 66) / 3 = 64: -12; the crotchets around the ends
    // (48, 50) and (64, 66): -16. The best of them counts.
    const [pin] = pins(same, [{ bar: 2, text: '>', until: [4, 1] }], ({ onsetTick }) => 50 + 2 * (onsetTick / TICKS - 4));
    expect(pin?.made).toBeCloseTo(-12, 9);
  });

  it('two of one kind that touch are one; two that turn round are two', () => {
    const flat = (): number => 60;
    expect(pins(same, [{ bar: 1, text: '<', until: [2, 1] }, { bar: 2, text: '<', until: [3, 1] }], flat).map(({ tick, untilTick }) => [tick / TICKS, untilTick / TICKS])).toEqual([[0, 8]]);
    expect(pins(same, [{ bar: 1, text: '<', until: [2, 1] }, { bar: 2, text: '>', until: [3, 1] }], flat)).toHaveLength(2);
  });

  it('under one hand is that of the hand, and takes the place of the other one’s', () => {
    const both = [...same, ...same.map(({ bar, beat }) => left(bar, beat, 48))];
    const marks: readonly Mark[] = [{ bar: 1, text: '<', until: [3, 1] }, { bar: 1, text: '>', until: [3, 1], staff: 2 }];
    expect(pins(both, marks, () => 60).map(({ kind, hand }) => [kind, hand])).toEqual([['crescendo', 'right'], ['diminuendo', 'left']]);
  });
});
