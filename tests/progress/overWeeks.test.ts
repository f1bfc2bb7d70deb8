import { describe, expect, it } from 'vitest';
import { cleanTwiceRunning, comingBack, figuresOf, settledBy, type WeekEntry } from '../../src/progress/index.js';

/** A recording of some bars with remarks on some of them. */
function week(played: readonly number[], remarked: readonly number[] = []): WeekEntry {
  return { played: new Set(played), remarked: new Set(remarked) };
}

describe('over the weeks', () => {
  // bar 1 clean in the last two; bar 2 slips in the last; bar 3 was left out in the middle and clean before and after; bar 4 slips each time
  const entries = [week([1, 2, 3, 4], [1, 4]), week([1, 2, 4], [4]), week([1, 2, 3, 4], [2, 4])];

  it('finds bars that are clean twice running, over a recording that leaves them out', () => {
    expect(cleanTwiceRunning(entries)).toEqual([1, 3]);
  });

  it('finds bars that came up three times running', () => {
    expect(comingBack(entries)).toEqual([4]);
    expect(comingBack(entries.slice(1))).toEqual([]);
  });

  it('finds neither in a single recording', () => {
    expect([cleanTwiceRunning(entries.slice(0, 1)), comingBack(entries.slice(0, 1))]).toEqual([[], []]);
  });

  it('says by which recording a comment is settled: the first from which on its bars stay clean', () => {
    const later = [week([1, 2], [1]), week([1, 2], []), week([1, 2], [2]), week([1, 2]), week([1]), week([1, 2])];
    // clean in recording 1, slips again in 2, clean from 3 on; recording 4 holds one of the bars only
    expect(settledBy(later, 0, [1, 2])).toBe(3);
    expect(settledBy(later, 0, [1])).toBe(1);
    expect(settledBy(later.slice(0, 3), 0, [1, 2])).toBeNull();
    expect(settledBy(later, 5, [1])).toBeNull();
  });
});

describe('the numbers of a recording', () => {
  it('count places, not remarks', () => {
    const place = { fromBar: 0, toBar: 0, pass: 1, attempt: 1, notes: [], startS: 0, weight: 0.5 };
    const observation = { aspect: 'pulse' as const, hand: null, topic: '', measured: { value: 1, unit: 's', threshold: 0.5 }, weight: 0.5, confidence: 1, text: '', advice: '' };
    const observations = [
      { ...observation, kind: 'hesitation', places: [place, place] },
      { ...observation, aspect: 'route' as const, kind: 'goingBack', places: [place] },
      { ...observation, aspect: 'pedal' as const, kind: 'blurred', places: [place, place, place] },
      { ...observation, aspect: 'pedal' as const, kind: 'gap', places: [place] },
    ];
    expect(figuresOf({ aspects: [], observations, praise: [] })).toEqual({ stops: 3, blurs: 3 });
  });
});
