import { describe, expect, it } from 'vitest';
import { levelChanges } from '../../src/measure/levelChanges.js';
import type { LevelChange } from '../../src/measure/levelTypes.js';
import { marksAsked } from '../../src/measure/marksAsked.js';
import { struckNotes } from '../../src/measure/struck.js';
import type { Occurrence } from '../../src/score/index.js';
import { barOf, beatOf, marked, struck, type Mark } from './loudness.js';
import { left, played, right, scoreOf, steady, type Written } from './piece.js';

/** Repeated notes, so that no register comes in: bars of four crotchets in both hands. */
const same = (bars: number, only?: 'right' | 'left'): Written[] => Array.from({ length: bars * 4 }, (_, i) => [right(1 + Math.floor(i / 4), 1 + (i % 4), 72), left(1 + Math.floor(i / 4), 1 + (i % 4), 48)]).flat().filter(({ staff }) => only === undefined || (staff === 1) === (only === 'right'));

function changes(written: readonly Written[], marks: readonly Mark[], velocityOf: (one: Occurrence) => number): readonly LevelChange[] {
  const score = marked(scoreOf(written), ...marks);
  const piece = struck(played(score, { clock: steady(0.5) }), velocityOf);
  return levelChanges(piece, struckNotes(piece), marksAsked(score));
}

const P_TO_F: readonly Mark[] = [{ bar: 1, text: 'p' }, { bar: 5, text: 'f' }];

describe('a change from mark to mark', () => {
  it('is the mean after against the mean before, of each hand', () => {
    // both hands 15 up: right from 55 to 70, left from 45 to 60
    const [change] = changes(same(8), P_TO_F, (one) => (one.staff === 1 ? 55 : 45) + (barOf(one) >= 5 ? 15 : 0));
    expect(change).toMatchObject({ kind: 'sudden', hand: null, from: 'p', to: 'f', steps: 3, louder: true, made: 15, madeSinceMark: 15, barsCompared: [4, 4], startS: 8 });
  });

  it('is positive the way it was asked', () => {
    const [change] = changes(same(8), [{ bar: 1, text: 'f' }, { bar: 5, text: 'pp' }], (one) => (barOf(one) >= 5 ? 70 : 60));
    expect(change).toMatchObject({ louder: false, steps: 4, made: -10 });
  });

  it('a hand that joins in makes none', () => {
    // the left hand, 20 softer, only plays after the mark: the right hand alone is compared, 60 against 60
    const joining = [...same(8, 'right'), ...same(8, 'left').filter(({ bar }) => bar >= 5)];
    expect(changes(joining, P_TO_F, ({ staff }) => (staff === 1 ? 60 : 40))[0]).toMatchObject({ made: 0 });
  });

  it('looks four bars around, and not beyond the next mark', () => {
    // bars 1-2 at 30 lie outside; the f holds for bars 7-8 only, where it is 80; bars 3-6 are 60
    const [first, second] = changes(same(12), [{ bar: 1, text: 'p' }, { bar: 7, text: 'f' }, { bar: 9, text: 'p' }], (one) => (barOf(one) <= 2 ? 30 : barOf(one) <= 6 ? 60 : barOf(one) <= 8 ? 80 : 50));
    expect(first).toMatchObject({ made: 20, barsCompared: [4, 2] });
    // since the p in bar 1: bars 1-4 are (30 + 30 + 60 + 60) / 4 = 45
    expect(first?.madeSinceMark).toBe(35);
    expect(second).toMatchObject({ made: 30, louder: false });
  });

  it('its error is that of two means, and never under 1.5 units', () => {
    // alternately 50 and 70: a standard deviation of 10 over 16 notes on each side, in one hand: 10 √(1/16 + 1/16) = 3.54
    const [change] = changes(same(8, 'right'), P_TO_F, (one) => (beatOf(one) % 2 === 1 ? 50 : 70));
    expect(change?.errorUnits).toBeCloseTo(3.54, 2);
    expect(changes(same(8), P_TO_F, () => 60)[0]?.errorUnits).toBe(1.5);
  });

  it('two equal marks ask for none, nor do marks with less than half a bar on one side', () => {
    expect(changes(same(8), [{ bar: 1, text: 'p' }, { bar: 5, text: 'p' }], () => 60)).toEqual([]);
    expect(changes(same(8), [{ bar: 1, text: 'p' }, { bar: 5, text: 'f' }, { bar: 5, beat: 2, text: 'p' }], () => 60)).toEqual([]);
  });
});

describe('a hairpin between two marks', () => {
  const pin: Mark = { bar: 3, text: '<', until: [5, 1] };

  it('that leads there is left out', () => {
    // bars 1-2 at 50, the crescendo at 60, f at 70
    expect(changes(same(8), [...P_TO_F, pin], (one) => (barOf(one) <= 2 ? 50 : barOf(one) <= 4 ? 60 : 70))[0]).toMatchObject({ kind: 'reached', made: 20, barsCompared: [2, 4] });
  });

  it('that leads elsewhere ends in a subito, held against its last bar', () => {
    const [change] = changes(same(8), [{ bar: 1, text: 'p' }, pin, { bar: 5, text: 'p' }], (one) => (barOf(one) === 4 ? 80 : 50));
    expect(change).toMatchObject({ kind: 'subito', louder: false, steps: 1, made: 30, barsCompared: [1, 4] });
  });
});

it('una corda is told where it comes with the mark', () => {
  const score = marked(scoreOf(same(8)), { bar: 1, text: 'f' }, { bar: 5, text: 'p' });
  const piece = played(score, { clock: steady(0.5) });
  // bar 5 begins at 8 s
  const at = (timeS: number, value = 127): boolean | undefined => levelChanges({ ...piece, recording: { ...piece.recording, soft: [{ timeS, value }] } }, struckNotes(piece), marksAsked(score))[0]?.unaCorda;
  expect([at(7.9), at(8.5), at(7.9, 63), at(0)]).toEqual([true, true, false, false]);
  expect(levelChanges(piece, struckNotes(piece), marksAsked(score))[0]?.unaCorda).toBe(false);
});

describe('an echo', () => {
  const tune = (bar: number, shift = 0): Written[] => [60, 62, 64, 65].map((pitch, i) => right(bar, 1 + i, pitch + shift));

  it('is told where the bars come again, softer', () => {
    const marks: readonly Mark[] = [{ bar: 1, text: 'f' }, { bar: 3, text: 'p' }];
    expect(changes([...tune(1), ...tune(2, 3), ...tune(3), ...tune(4, 3)], marks, () => 60)[0]?.echo).toBe(true);
    expect(changes([...tune(1), ...tune(2, 3), ...tune(3), ...tune(4, 5)], marks, () => 60)[0]?.echo).toBe(false);
  });
});
