import { describe, expect, it } from 'vitest';
import { struckNotes } from '../../src/measure/struck.js';
import type { Piece } from '../../src/measure/piece.js';
import type { Occurrence } from '../../src/score/index.js';
import { barOf, struck } from './loudness.js';
import { left, played, right, scoreOf, steady, type Written } from './piece.js';

const scale: Written[] = [60, 64, 67, 72].map((pitch, i) => right(1, 1 + i, pitch));
const asPlayed = (written: readonly Written[], velocityOf: (one: Occurrence) => number): Piece => struck(played(scoreOf(written), { clock: steady(0.5) }), velocityOf);

describe('the trend by register', () => {
  it('is taken off: 0.2 units a semitone leave every note of a scale alike', () => {
    const { registerTrend, notes } = struckNotes(asPlayed(scale, ({ midi }) => 50 + 0.2 * (midi - 60)));
    expect(registerTrend).toBeCloseTo(0.2, 9);
    for (const { levelled } of notes) expect(levelled).toBeCloseTo(50, 9);
  });

  it('takes in neither form nor balance: a low soft bar after a high loud one, a soft left hand', () => {
    const written = [...scale, ...scale.map((one) => ({ ...one, bar: 2, pitch: one.pitch - 24 })), ...scale.map((one) => ({ ...one, staff: 2, pitch: one.pitch - 12 }))];
    expect(struckNotes(asPlayed(written, (one) => (barOf(one) === 1 ? 80 : 40) - (one.staff === 2 ? 20 : 0))).registerTrend).toBe(0);
  });

  it('is held between 0 and a quarter of a unit', () => {
    expect(struckNotes(asPlayed(scale, ({ midi }) => 50 + 2 * (midi - 60))).registerTrend).toBe(0.25);
    expect(struckNotes(asPlayed(scale, ({ midi }) => 90 - 2 * (midi - 60))).registerTrend).toBe(0);
  });
});

it('grace notes are left out, chords are one moment from low to high', () => {
  const written: Written[] = [{ ...right(1, 1, 71), kind: 'grace' }, right(1, 1, 72), right(1, 1, 64), left(1, 1, 48)];
  const { moments } = struckNotes(asPlayed(written, ({ midi }) => midi));
  expect(moments.map(({ right: mine, left: other }) => [mine.map(({ notes, loudest }) => [notes.map(({ midi }) => midi), loudest]), other.length])).toEqual([[[[[64, 72], 72]], 1]]);
});
