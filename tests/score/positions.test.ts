import { describe, expect, it } from 'vitest';
import { barAtTick, barLabel, beatTicks, ticksToCrotchets, visitAtTick } from '../../src/score/index.js';
import { note, repeatEnd } from './build.js';
import { readBars } from './read.js';

// Two bars of 8 ticks each (2 ticks a crotchet), the first repeated: unfolded 0-8, 8-16, 16-24.
const score = readBars([note('C4', 8) + repeatEnd, note('D4', 8)]);

describe('positions', () => {
  it('a written tick falls into its bar; the end of a bar belongs to the next', () => {
    expect([0, 7, 8, 15].map((tick) => barAtTick(score, tick))).toEqual([
      { barIndex: 0, offsetTicks: 0 },
      { barIndex: 0, offsetTicks: 7 },
      { barIndex: 1, offsetTicks: 0 },
      { barIndex: 1, offsetTicks: 7 },
    ]);
  });

  it('ticks outside of the piece belong to the nearest bar', () => {
    expect(barAtTick(score, -3)).toEqual({ barIndex: 0, offsetTicks: -3 });
    expect(barAtTick(score, 20)).toEqual({ barIndex: 1, offsetTicks: 12 });
  });

  it('an unfolded tick falls into its visit', () => {
    expect([7, 8, 16].map((tick) => visitAtTick(score, tick).index)).toEqual([0, 1, 2]);
    expect(visitAtTick(score, 8)).toMatchObject({ barIndex: 0, pass: 2 });
  });

  it('a score without bars is our own mistake', () => {
    expect(() => barAtTick({ bars: [] }, 0)).toThrow(RangeError);
    expect(() => visitAtTick({ order: [] }, 0)).toThrow(RangeError);
  });

  it('ticks as crotchets', () => {
    expect(ticksToCrotchets(score, 3)).toBe(1.5);
  });

  it('the beat is dotted in compound time: 6/8 has two, 9/8 three, 12/8 four (common practice, no source)', () => {
    const beats = (count: number, beatType: number): number =>
      (count * 8) / beatType / beatTicks(score, { time: { beats: count, beatType, symbol: null } });
    expect([beats(6, 8), beats(9, 8), beats(12, 8), beats(3, 8), beats(4, 4), beats(6, 4), beats(2, 2)]).toEqual([2, 3, 4, 3, 4, 2, 2]);
  });

  it('bars are named as printed', () => {
    expect([barLabel({ number: '12a', index: 14 }), barLabel({ number: '0', index: 0 }), barLabel({ number: '0', index: 7 })]).toEqual([
      'bar 12a',
      'the upbeat',
      'bar 0',
    ]);
  });
});
