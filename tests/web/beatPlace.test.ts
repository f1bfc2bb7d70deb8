import { describe, expect, it } from 'vitest';
import { beatPlace, onBeat } from '../../src/web/beatPlace.js';

/** One bar of a time signature on a grid of 12 ticks a crotchet; short where it is an upbeat. */
function bar(beats: number, beatType: number, lengthCrotchets?: number) {
  const nominalTicks = (beats * 48) / beatType;
  const lengthTicks = lengthCrotchets === undefined ? nominalTicks : lengthCrotchets * 12;
  const one = {
    index: 0, number: '1', implicit: lengthCrotchets !== undefined, startTick: 0, lengthTicks, nominalTicks,
    time: { beats, beatType, symbol: null }, key: { fifths: 0, mode: null }, barlines: [], endings: [],
  };
  return { bars: [one], ticksPerQuarter: 12 };
}

describe('a place in a bar, as one counts it', () => {
  it.each([
    [bar(4, 4), 0, '1'], [bar(4, 4), 2, '3'], [bar(4, 4), 1.5, 'the “&” of 2'], [bar(4, 4), 0.25, 'after 1'],
    // a dotted crotchet is a beat: quavers are counted in the bar
    [bar(6, 8), 1.5, '2'], [bar(6, 8), 2.5, 'the sixth quaver'], [bar(6, 8), 0.25, 'after 1'],
    [bar(3, 8), 0.5, '2'], [bar(2, 2), 2, '2'], [bar(2, 2), 1, 'the “&” of 1'],
    // an upbeat of a quaver in 6/8 is the sixth, one of a crotchet in 4/4 the fourth beat
    [bar(6, 8, 0.5), 0, 'the sixth quaver'], [bar(4, 4, 1), 0, '4'],
  ])('%#', (score, offset, name) => {
    expect(beatPlace(score, { barIndex: 0, offset })).toBe(name);
  });

  it('speaks American, and finds words before it', () => {
    expect(beatPlace(bar(6, 8), { barIndex: 0, offset: 2.5 }, 'american')).toBe('the sixth eighth note');
    expect(onBeat(bar(4, 4), { barIndex: 0, offset: 1 })).toBe('on 2');
    expect(onBeat(bar(4, 4), { barIndex: 0, offset: 0.25 })).toBe('after 1');
    expect(beatPlace(bar(4, 4), { barIndex: 9, offset: 0 })).toBe('1');
  });
});
