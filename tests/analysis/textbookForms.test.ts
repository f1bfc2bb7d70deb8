/** Forms as textbooks have them (common practice, no source): period, binary, minuet and trio, rondo. All music is invented. */
import { describe, expect, it } from 'vitest';
import { analyseScore, findForm } from '../../src/analysis/index.js';
import { analyseHarmony } from '../../src/harmony/index.js';
import type { Score } from '../../src/score/index.js';
import { score, type WrittenBar } from '../align/build.js';
import { barline, direction, repeatEnd, repeatStart } from '../score/build.js';

const DOUBLE = barline('<bar-style>light-light</bar-style>');

/** Bars of two lists of texts; what stands after the last one. */
const bars = (right: readonly string[], left: readonly string[], last = ''): WrittenBar[] =>
  right.map((text, i) => ({ right: text, left: left[i] ?? 'r/4', ...(i === right.length - 1 && last !== '' ? { after: last } : {}) }));

/** Four bars to a half close and four home, in C. */
const PERIOD = bars(
  ['C5 E5 G5/2', 'A5 F5 D5/2', 'E5 C5 D5 B4', 'D5/4', 'C5 E5 G5/2', 'A5 F5 D5/2', 'E5 C5 D5 B4', 'C5/4'],
  ['C3+E3+G3/4', 'F3+A3+C4/4', 'C3+E3+G3/2 G2+B2+D3/2', 'G2+B2+D3/4', 'C3+E3+G3/4', 'F3+A3+C4/4', 'C3+E3+G3/2 G2+D3+F3/2', 'C3+E3+G3/4'],
);
/** Eight bars in G, otherwise moved. */
const IN_G = bars(
  ['B4/0.5 C5/0.5 D5/0.5 E5/0.5 D5/2', 'C5/0.5 D5/0.5 E5/0.5 C5/0.5 A4/2', 'D5 C5 B4 A4', 'B4/2 D5/2', 'B4/0.5 C5/0.5 D5/0.5 E5/0.5 D5/2', 'C5/0.5 D5/0.5 E5/0.5 C5/0.5 A4/2', 'B4 G4 A4 F#4', 'G4/4'],
  ['G3+B3+D4/4', 'C3+E3+G3/2 D3+F#3+A3/2', 'D3+F#3+C4/4', 'G3+B3+D4/4', 'G3+B3+D4/4', 'C3+E3+G3/2 A2+C3+E3/2', 'D3+F#3+A3/4', 'G2+B2+D3/4'],
);
/** Eight bars in A minor, in crotchets after the beat. */
const IN_A_MINOR = bars(
  ['r A4 C5 E5', 'r B4 D5 G#4', 'r C5 A4 E4', 'r F4 A4 D5', 'r E4 A4 C5', 'r D5 F5 A4', 'r B4 G#4 E4', 'A4/4'],
  ['A2+E3/4', 'E2+E3/4', 'A2+E3/4', 'D3+A3/4', 'A2+E3/4', 'D3+A3/4', 'E2+B2/4', 'A2+E3/4'],
);

const close = (some: readonly WrittenBar[], after: string): WrittenBar[] => some.map((bar, i) => (i === some.length - 1 ? { ...bar, after } : bar));

const named = (written: Score): string[] => {
  const { sections } = findForm(written, analyseHarmony(written));
  return sections.map(({ name, fromBar, toBar }) => `${name} ${written.bars[fromBar]!.number}-${written.bars[toBar]!.number}`);
};

describe('a period of four and four', () => {
  const { phrases, cadences } = analyseScore(score(PERIOD));
  it('has two phrases of four bars', () => {
    // the dominant is reached on the third beat of the third bar and stands through the fourth
    expect(phrases.map(({ from, to }) => [from.barIndex, to.barIndex, to.offset])).toEqual([[0, 2, 2], [4, 7, 0]]);
  });
  it('the first ends on the dominant, the second at home', () => {
    expect(cadences.map(({ kind }) => kind)).toEqual(['imperfect', 'perfect']);
  });
});

describe('binary form', () => {
  it('goes to the dominant, and its second part comes home', () => {
    const home = bars(
      ['G5 E5 C5/2', 'F5 D5 B4/2', 'A5/0.5 G5/0.5 F5/0.5 E5/0.5 D5/2', 'C5 D5 E5/2', 'G5 E5 C5/2', 'F5 D5 B4/2', 'E5 C5 D5 B4', 'C5/4'],
      ['C3+E3+G3/4', 'G2+B2+F3/4', 'F2+A2+C3/4', 'C3+E3+G3/4', 'C3+E3+G3/4', 'G2+B2+F3/4', 'C3+G3/2 G2+D3+F3/2', 'C3+E3+G3/4'],
    );
    const written = score([...PERIOD.slice(0, 4), ...close(IN_G, repeatEnd), ...close(home, repeatEnd).map((bar, i) => (i === 0 ? { ...bar, before: repeatStart } : bar))]);
    const { keys, key } = analyseScore(written);
    expect([key?.spelling, key?.mode]).toEqual(['C', 'major']);
    expect(keys.map(({ spelling, mode }) => `${spelling} ${mode}`)).toEqual(['C major', 'G major', 'C major']);
    expect(named(written)).toEqual(['A 1-12', 'B 13-20']);
  });
});

describe('minuet, trio and the minuet again', () => {
  it('is played A B A', () => {
    const minuet = close(PERIOD, `${barline('<bar-style>light-light</bar-style>')}${direction('<words>Fine</words>', '<sound fine="yes"/>')}`);
    const trio = close(IN_G, direction('<words>D.C. al Fine</words>', '<sound dacapo="yes"/>'));
    const written = score([...minuet, ...trio]);
    const { sections, played } = findForm(written, analyseHarmony(written));
    expect(played.map((index) => sections[index]!.name)).toEqual(['A', 'B', 'A']);
  });
});

describe('rondo', () => {
  it('is A B A C A', () => {
    const written = score([...close(PERIOD, DOUBLE), ...close(IN_G, DOUBLE), ...close(PERIOD, DOUBLE), ...close(IN_A_MINOR, DOUBLE), ...PERIOD]);
    expect(named(written)).toEqual(['A 1-8', 'B 9-16', 'A 17-24', 'C 25-32', 'A 33-40']);
  });
});
