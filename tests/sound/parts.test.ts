import { describe, expect, it } from 'vitest';
import { pedalAt, withFoot } from '../../src/sound/footChanges.js';
import { lengthInWords } from '../../src/sound/lengthWords.js';
import { endsBefore } from '../../src/sound/draft.js';
import { clockOf, levelsMatched } from '../../src/sound/index.js';

/** Down from 1 s to 3 s. */
const FOOT = [{ timeS: 1, value: 100 }, { timeS: 3, value: 0 }];

describe('the foot held for a time', () => {
  it('goes up inside, and is where it was before and after', () => {
    expect(withFoot(FOOT, { fromS: 2, toS: 2.2, value: 0 })).toEqual([{ timeS: 1, value: 100 }, { timeS: 2, value: 0 }, { timeS: 2.2, value: 100 }, { timeS: 3, value: 0 }]);
  });

  it('adds no point where it stands there already', () => {
    expect(withFoot(FOOT, { fromS: 2, toS: 2.5, value: 100 })).toEqual(FOOT);
    expect(withFoot(FOOT, { fromS: 2.5, toS: 4, value: 100 })).toEqual([{ timeS: 1, value: 100 }, { timeS: 4, value: 0 }]);
  });

  it('does nothing for no time', () => expect(withFoot(FOOT, { fromS: 2, toS: 2, value: 0 })).toBe(FOOT));

  it('is read at its points and before them', () => {
    expect([0.999, 1, 2.999, 3].map((timeS) => pedalAt(FOOT, timeS))).toEqual([0, 100, 100, 0]);
  });
});

describe('lengths in words, at 60 crotchets a minute', () => {
  // a crotchet lasts 1 s, a quaver 0.5 s, a semiquaver 0.25 s; halves are rounded up
  it.each([[0.1, 'less than a semiquaver'], [0.125, 'a semiquaver'], [0.24, 'a semiquaver'], [0.5, 'a quaver'], [0.75, 'a crotchet'], [1.5, 'three quavers'], [2, 'two crotchets'], [4.4, 'five crotchets'], [14, '14 crotchets']])('%s s is %s', (seconds, words) => {
    expect(lengthInWords(seconds, 1)).toBe(words);
  });
});

describe('a note’s new end', () => {
  const others = [{ onsetS: 2, pitch: 60 }, { onsetS: 1.5, pitch: 62 }];
  it('leaves its key 20 ms before it is struck again', () => expect(endsBefore(others)({ onsetS: 1, pitch: 60 }, 5)).toBeCloseTo(1.98, 9));
  it('is the wanted one where nothing is in the way', () => expect(endsBefore(others)({ onsetS: 1, pitch: 62 }, 1.2)).toBe(1.2));
  it('comes no sooner than 20 ms after its beginning', () => expect(endsBefore([{ onsetS: 1.01, pitch: 60 }])({ onsetS: 1, pitch: 60 }, 5)).toBeCloseTo(1.02, 9));
});

describe('a version’s clock', () => {
  const clock = clockOf([{ playedS: 1, versionS: 1 }, { playedS: 3, versionS: 2 }]);
  it('runs evenly between its points and as played outside of them', () => expect([0.5, 1, 2, 3, 4].map(clock)).toEqual([0.5, 1, 1.5, 2, 3]));
  it('is the player’s own without points', () => expect(clockOf([])(7)).toBe(7));
});

describe('two recordings at one level', () => {
  const strokes = (velocity: number, count: number) => Array.from({ length: count }, (_, index) => ({ index, onsetS: index, releaseS: index + 0.5, pitch: 60, velocity, releaseVelocity: null, hanging: false }));

  it('turns the louder one down by the difference of their strokes', () => {
    // Dannenberg 2006 with 40 dB: r = 100, b = 127/1260 - 1/126 = 0.09286, m = (1-b)/127; velocity 127 is 0 dB, velocity 64 is
    // 40 log10(64 m + b) = 40 log10(0.55000) = -10.386 dB
    const { firstDb, secondDb } = levelsMatched({ notes: strokes(127, 5) }, { notes: strokes(64, 5) });
    expect(firstDb).toBeCloseTo(-10.386, 2);
    expect(secondDb).toBe(0);
  });

  it('takes energy by the second, so that a longer one is no louder', () => {
    // 5 strokes over 4 s and 9 over 8 s: 10 log10(5/4) = 0.969 dB, 10 log10(9/8) = 0.512 dB; the first is turned down by 0.458
    expect(levelsMatched({ notes: strokes(80, 5) }, { notes: strokes(80, 9) }).firstDb).toBeCloseTo(-0.458, 2);
  });

  it('leaves both as they are where one is silent', () => expect(levelsMatched({ notes: [] }, { notes: strokes(80, 2) })).toEqual({ firstDb: 0, secondDb: 0 }));
});
