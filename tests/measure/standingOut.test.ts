import { describe, expect, it } from 'vitest';
import { notMeasured, type Measured } from '../../src/base/index.js';
import { overSurroundings, surroundingsOf } from '../../src/measure/standingOut.js';
import { struckNotes, type HandMoments } from '../../src/measure/struck.js';
import { struck } from './loudness.js';
import { played, right, scoreOf, steady, TICKS, type Written } from './piece.js';

/** Moments of one hand with these velocities, so many crotchets apart. */
function line(velocities: readonly number[], step = 1): HandMoments {
  const written: Written[] = velocities.map((_, i) => right(1 + Math.floor((i * step) / 4), 1 + ((i * step) % 4), 60, step));
  const piece = struck(played(scoreOf(written), { clock: steady(0.5) }), ({ onsetTick }) => velocities[onsetTick / (step * TICKS)] ?? 0);
  return struckNotes(piece).moments[0]?.right ?? [];
}

const over = (moments: HandMoments, place: number): Measured<number> | undefined => overSurroundings(moments, surroundingsOf(moments, TICKS)).get(moments[place]?.notes[0]?.pair ?? -1);

describe('a note over its surroundings', () => {
  it('is held against the loudest of three on each side', () => {
    // crotchets: three on each side, the loudest of them 58; within four crotchets eight moments, in order 50 50 50 52 54 55 57 58: four
    // fifths of the way along is place 5.6 from 0, 55 + 0.6 × 2 = 56.2, which is less. 70 - 58 = 12
    expect(over(line([50, 55, 50, 57, 70, 52, 58, 50, 54]), 4)).toEqual({ measured: true, value: 12 });
  });

  it('and against the wider surroundings, where these are louder', () => {
    // quavers: the three on each side are 50, but the moments beyond, within four crotchets, are 66: ten of the sixteen around
    const velocities = Array.from({ length: 17 }, (_, i) => (i === 8 ? 70 : Math.abs(i - 8) <= 3 ? 50 : 66));
    expect(over(line(velocities, 0.5), 8)).toEqual({ measured: true, value: 4 });
  });

  it('is not told where fewer than four moments are near', () => {
    expect(over(line([50, 50, 70, 50]), 2)).toEqual(notMeasured('too few notes of the hand are near it'));
    expect(over(line([50, 50, 70, 50, 50]), 2)).toEqual({ measured: true, value: 20 });
  });

  it('notes struck together are no neighbours', () => {
    const written: Written[] = Array.from({ length: 8 }, (_, i) => right(1 + Math.floor(i / 4), 1 + (i % 4), 72)).concat(right(1, 4, 60));
    const piece = struck(played(scoreOf(written), { clock: steady(0.5) }), ({ midi, onsetTick }) => (onsetTick === 3 * TICKS ? (midi === 72 ? 80 : 75) : 60));
    const moments = struckNotes(piece).moments[0]?.right ?? [];
    const found = overSurroundings(moments, surroundingsOf(moments, TICKS));
    expect(moments[3]?.notes.map(({ midi, pair }) => [midi, found.get(pair)])).toEqual([[60, { measured: true, value: 15 }], [72, { measured: true, value: 20 }]]);
  });
});
