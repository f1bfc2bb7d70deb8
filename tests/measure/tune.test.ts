import { describe, expect, it } from 'vitest';
import { againstTune } from '../../src/measure/tuneOver.js';
import { isCounterpoint, lineMembers, tuneLines, type BarTune } from '../../src/measure/tuneLines.js';
import { struckNotes } from '../../src/measure/struck.js';
import type { Score } from '../../src/score/index.js';
import { struck } from './loudness.js';
import { left, played, right, scoreOf, steady, TICKS, type Written } from './piece.js';

/** Invented, four bars each, again and again. */
const TUNE: readonly (readonly [beat: number, step: number, length: number])[][] = [
  [[1, 0, 1.5], [2.5, 2, 0.5], [3, 4, 1], [4, 2, 1]], [[1, 5, 2], [3, 4, 1], [4, 2, 1]], [[1, 0, 1], [2, 2, 1], [3, 4, 1.5], [4.5, 5, 0.5]], [[1, 4, 3]],
];
const CHORDS = [[0, 4, 7], [0, 5, 9], [-1, 5, 7], [0, 4, 7]];
const bars = <T>(count: number, make: (bar: number, i: number) => readonly T[]): T[] => Array.from({ length: count }, (_, i) => make(i + 1, i % 4)).flat();
const tune = (hand: typeof right, base: number, count = 8): Written[] => bars(count, (bar, i) => (TUNE[i] ?? []).map(([beat, step, length]) => hand(bar, beat, base + step, length)));
/** Broken chords in quavers: low, high, middle, high. */
const alberti = (hand: typeof right, base: number): Written[] => bars(8, (bar, i) => [0, 2, 1, 2, 0, 2, 1, 2].map((place, k) => hand(bar, 1 + k / 2, base + (CHORDS[i]?.[place] ?? 0), 0.5)));
/** Repeated chords on the off-beats. */
const offbeats = (hand: typeof right, base: number): Written[] => bars(8, (bar, i) => [1.5, 2.5, 3.5, 4.5].flatMap((beat) => (CHORDS[i] ?? []).map((step) => hand(bar, beat, base + step, 0.5))));

const lines = (score: Score): readonly string[] => [...new Set(tuneLines(score).map(({ hand, line }) => `${hand} ${line}`))];
const sure = (score: Score): number => Math.min(...tuneLines(score).map(({ confidence }) => confidence));

describe('which line has the tune', () => {
  it('the right hand over broken chords', () => {
    const score = scoreOf([...tune(right, 72), ...alberti(left, 48)]);
    expect(lines(score)).toEqual(['right top']);
    expect(sure(score)).toBeGreaterThan(0.25);
  });

  it('the left hand under repeated chords', () => {
    const score = scoreOf([...tune(left, 48), ...offbeats(right, 67)]);
    expect(lines(score)).toEqual(['left top']);
    expect(sure(score)).toBeGreaterThan(0.25);
  });

  it('the upper line of a hand that plays its own accompaniment: the tune held over broken chords', () => {
    const score = scoreOf([...tune(right, 76), ...alberti(right, 60), ...bars(8, (bar) => [left(bar, 1, 36, 4)])]);
    expect(lines(score)).toEqual(['right top']);
    const members = lineMembers(score, { hand: 'right', line: 'top' });
    expect(score.occurrences.filter(({ index }) => members.has(index)).every(({ midi, onsetTick }) => midi >= 76 || onsetTick % (16 * TICKS) >= 15 * TICKS)).toBe(true);
  });

  it('two lines of one kind leave it open', () => {
    const score = scoreOf([...tune(right, 72), ...tune(left, 60)]);
    const open = scoreOf([...tune(right, 72), ...alberti(left, 48)]);
    expect(sure(score)).toBeLessThan(sure(open));
  });

  it('goes over to the left hand where that takes the tune', () => {
    const score = scoreOf([...tune(right, 72, 8), ...alberti(left, 48), ...tune(left, 48, 8).map((one) => ({ ...one, bar: one.bar + 8 })), ...offbeats(right, 67).map((one) => ({ ...one, bar: one.bar + 8 }))]);
    const hands = tuneLines(score).map(({ hand }) => hand);
    // a bar to either side of the turn is left to it
    expect(hands.slice(0, 7)).toEqual(Array.from({ length: 7 }, () => 'right'));
    expect(hands.slice(9)).toEqual(Array.from({ length: 7 }, () => 'left'));
  });
});

describe('tune over accompaniment', () => {
  const onTop: readonly BarTune[] = Array.from({ length: 4 }, (_, visitIndex) => ({ visitIndex, hand: 'right' as const, line: 'top' as const, confidence: 1, rivalLikeness: 0, together: 1 }));
  const overs = (written: readonly Written[], velocityOf: (midi: number) => number, secondsACrotchet = 0.5): readonly (readonly [midi: number, over: number, together: boolean])[] => {
    const score = scoreOf(written, { bars: 4 });
    const notes = struckNotes(struck(played(score, { clock: steady(secondsACrotchet) }), ({ midi }) => velocityOf(midi)));
    return againstTune(score, notes, onTop).map(({ note, over, together }) => [note.midi, over, together]);
  };

  it('of notes struck together is the difference of their strokes', () => {
    expect(overs([right(1, 1, 60, 2), left(1, 1, 48, 2)], (midi) => (midi === 60 ? 70 : 55))).toEqual([[48, 15, true]]);
  });

  it('takes off what the tune has lost since it was struck, but no more than 6 units', () => {
    // middle C loses 6 dB a second: after 0.1 s 0.6 dB, at 0.26 dB a unit 2.31 units; after 0.5 s it would be 11.5
    const quick = overs([right(1, 1, 60, 2), left(1, 2, 48)], (midi) => (midi === 60 ? 70 : 55), 0.1);
    expect(quick[0]?.[1]).toBeCloseTo(15 - 2.308, 3);
    expect(overs([right(1, 1, 60, 2), left(1, 2, 48)], (midi) => (midi === 60 ? 70 : 55))).toEqual([[48, 9, false]]);
    // 18 semitones up it goes twice as fast: 4.62 units
    expect(overs([right(1, 1, 78, 2), left(1, 2, 48)], (midi) => (midi === 78 ? 70 : 55), 0.1)[0]?.[1]).toBeCloseTo(15 - 4.615, 3);
  });

  it('a chord that answers within two crotchets is held against the tune note before; later ones are not', () => {
    expect(overs([right(1, 1, 60, 1), left(1, 3, 48)], (midi) => (midi === 60 ? 70 : 55))).toEqual([[48, 15, false]]);
    expect(overs([right(1, 1, 60, 1), left(1, 4, 48)], () => 60)).toEqual([]);
  });

  it('an answer remembers the tune of the last four crotchets, not only its tapered end', () => {
    // 80 five crotchets before is forgotten; 70 and 50 make 60: 60 - 45
    expect(overs([right(1, 1, 60), right(1, 3, 62), right(1, 4, 64), left(2, 2, 48)], (midi) => ({ 60: 80, 62: 70, 64: 50 })[midi] ?? 45)[0]?.[1]).toBe(15);
  });

  it('notes that thicken the tune are no accompaniment, and bars of an uncertain tune tell nothing', () => {
    expect(overs([right(1, 1, 72), right(1, 1, 64), left(1, 1, 48)], () => 60)).toEqual([[48, 0, true]]);
    const score = scoreOf([right(1, 1, 60), left(1, 1, 48)], { bars: 4 });
    expect(againstTune(score, struckNotes(played(score, { clock: steady(0.5) })), onTop.map((one) => ({ ...one, confidence: 0.24 })))).toEqual([]);
  });
});

describe('counterpoint', () => {
  // the left hand has the tune too, a bar later, two octaves lower: a canon
  const canon = [...tune(right, 72), ...tune(left, 48).map((one) => ({ ...one, bar: one.bar + 1 }))];

  it('two tunes that go their own ways; not two that go together, nor a tune over broken chords', () => {
    expect(isCounterpoint(tuneLines(scoreOf(canon)))).toBe(true);
    expect(isCounterpoint(tuneLines(scoreOf([...tune(right, 72), ...tune(left, 48)])))).toBe(false);
    expect(isCounterpoint(tuneLines(scoreOf([...tune(right, 72), ...alberti(left, 48)])))).toBe(false);
    expect(isCounterpoint([])).toBe(false);
  });
});
