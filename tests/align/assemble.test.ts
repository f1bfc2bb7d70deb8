/** What counts as missed at the ragged ends of a recording and of its stretches, and where stray presses belong. */
import { describe, expect, it } from 'vitest';
import { keys, match, missed, route, said, type Key } from './build.js';
import { BAR_S, names, plays, tune } from './tune.js';

const both = tune();

describe('the ends of a recording', () => {
  // bar 5 begins at 8 s; the left hand is struck first
  const inTime = plays(1, 5, 0).sort((a, b) => a.onsetS - b.onsetS || a.pitch - b.pitch);
  const endingAfter = (notesOfBar5: number): readonly Key[] => inTime.slice(0, 4 * 8 + notesOfBar5);

  it('leave the rest of the last bar when less than half of it was played', () => {
    // two of eight notes; three of eight, where the second beat was begun with the left hand alone
    expect(missed(match(both, endingAfter(2)))).toBe('');
    expect(missed(match(both, endingAfter(3)))).toBe('r5-2');
  });

  it('take the last bar as played through from half of it on, so that a missed end shows', () => {
    // four of eight: exactly half
    expect(missed(match(both, endingAfter(4)))).toBe('l5-3 r5-3 l5-4 r5-4');
    expect(missed(match(both, endingAfter(7)))).toBe('r5-4');
  });

  it('do the same with the first bar', () => {
    // from the fourth beat of bar 3: two of eight; from the second one: six of eight
    expect(missed(match(both, plays(3, 6, 0).filter((key) => key.onsetS >= 1.5)))).toBe('');
    expect(missed(match(both, plays(3, 6, 0).filter((key) => key.onsetS >= 0.5)))).toBe('l3-1 r3-1');
  });
});

describe('the ends of stretches', () => {
  it('leave the rest of a bar, however much of it was played', () => {
    // bar 4 but for its last beat, then from bar 3 again, entering on its second beat
    const matched = match(both, plays(1, 4, 0).filter((key) => key.onsetS < 3.75 * BAR_S), plays(3, 8, 9).filter((key) => key.onsetS > 9.2));
    expect(route(matched)).toBe('1-4, 3-8@2');
    expect(missed(matched)).toBe('');
  });

  it('still miss what was left out between the first and the last note of a broken bar', () => {
    // bar 4 without its second beat in the right hand (B4)
    const broken = plays(1, 4, 0).filter((key) => key.onsetS < 3.75 * BAR_S && !(key.onsetS === 3.25 * BAR_S && key.pitch > 60));
    expect(missed(match(both, broken, plays(3, 8, 9)))).toBe('r4-2');
  });
});

describe('stray presses', () => {
  it('belong to the stretch that sounds when they come', () => {
    // a stray in bar 3 of the first stretch and one in bar 7 of the second
    const matched = match(both, plays(1, 4, 0), keys(4.25, 1, 'D#6'), plays(3, 8, 9), keys(17.25, 1, 'D#6'));
    expect(matched.alignment.added.map((one) => one.stretch)).toEqual([0, 1]);
    expect(said(matched).split(' ').filter((word) => word.startsWith('+')).every((word) => /^\+r(3|7)-/.test(word))).toBe(true);
  });

  it('belong nowhere more than a second before the music or after it', () => {
    const matched = match(both, keys(0, 1, 'D#6'), plays(1, 8, 1.5), keys(20, 1, 'D#6'));
    expect(matched.alignment.added).toEqual([{ note: 0, stretch: null, near: null, instead: false }, { note: 65, stretch: null, near: null, instead: false }]);
  });

  it('have a place up to a second before the music and after it', () => {
    // the music sounds from 1 s to 16.5 s
    const matched = match(both, keys(0.25, 1, 'C#4'), plays(1, 8, 1), keys(17.25, 1, 'C#4'));
    expect(matched.alignment.added.map((one) => one.stretch)).toEqual([0, 0]);
    expect(said(matched)).toMatch(new RegExp(`^\\+r1-\\d ${names(1, 8)} \\+[rl]8-\\d$`));
  });
});
