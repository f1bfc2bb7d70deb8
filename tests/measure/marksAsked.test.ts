import { describe, expect, it } from 'vitest';
import { marksAsked } from '../../src/measure/marksAsked.js';
import { marked, type Mark } from './loudness.js';
import { left, right, run, scoreOf, TICKS } from './piece.js';

const BAR = 4 * TICKS;
const score = scoreOf([...run(right, 32), ...run(left, 32)]);
const texts = (hand: 'right' | 'left', ...marks: readonly Mark[]): readonly string[] => marksAsked(marked(score, ...marks))[hand].marks.map(({ text, tick }) => `${text} ${tick / BAR + 1}`);

describe('marks of level', () => {
  it('go from pppp to ffff as the velocities of the W3C examples do', () => {
    // MusicXML 4.0 examples (W3C), percent of velocity 90
    const percent = { pppp: 11, ppp: 27, pp: 41, p: 55, mp: 70, mf: 84, f: 100, ff: 111, fff: 122, ffff: 133 };
    const names = Object.keys(percent);
    const asked = marksAsked(marked(score, ...names.slice(0, 8).map((text, i) => ({ bar: i + 1, text })))).right.marks;
    expect(asked.map(({ step }) => step)).toEqual([0, 1, 2, 3, 4, 5, 6, 7]);
    expect(marksAsked(marked(score, { bar: 1, text: 'fff' }, { bar: 2, text: 'ffff' })).right.marks.map(({ step }) => step)).toEqual([8, 9]);
    expect(Object.values(percent)).toEqual([...Object.values(percent)].sort((a, b) => a - b));
  });

  it('one mark holds for both hands', () => {
    expect(texts('left', { bar: 1, text: 'p' }, { bar: 5, text: 'f' })).toEqual(['p 1', 'f 5']);
  });

  it('a hand with a mark of its own within a bar takes that, and beyond a bar both', () => {
    expect(texts('left', { bar: 1, text: 'f' }, { bar: 2, text: 'p', staff: 2 })).toEqual(['p 2']);
    expect(texts('left', { bar: 1, text: 'f' }, { bar: 2, beat: 2, text: 'p', staff: 2 })).toEqual(['f 1', 'p 2.25']);
  });

  it('words that ask for a level are marks, other words are not', () => {
    expect(texts('right', { bar: 1, text: 'sotto voce', kind: 'words' }, { bar: 3, text: 'subito p', kind: 'words' }, { bar: 5, text: 'ff sempre', kind: 'words' })).toEqual(['p 1', 'p 3', 'ff 5']);
    expect(texts('right', { bar: 1, text: 'dolce', kind: 'words' }, { bar: 2, text: 'poco rit.', kind: 'tempo' }, { bar: 3, text: 'p', kind: 'rehearsal' })).toEqual([]);
  });

  it('fp is an accent, and p from half a beat later; sf is an accent alone', () => {
    const asked = marksAsked(marked(score, { bar: 1, text: 'fp' }, { bar: 2, text: 'sf' }, { bar: 3, text: 'sfzp' })).right;
    expect(asked.marks.map(({ text, tick }) => [text, tick])).toEqual([['p', TICKS / 2], ['p', 2 * BAR + TICKS / 2]]);
    expect(asked.sforzati).toEqual([0, BAR, 2 * BAR]);
    expect(marksAsked(marked(score, { bar: 1, text: 'fp' })).left.sforzati).toEqual([]);
  });
});

describe('hairpins', () => {
  it('"smorzando" fades to the next mark, at most for two bars', () => {
    const fading = (...marks: readonly Mark[]): readonly number[] => marksAsked(marked(score, { bar: 1, text: 'smorzando', kind: 'tempo' }, ...marks)).right.hairpins.map(({ untilTick }) => untilTick / BAR);
    expect(fading()).toEqual([2]);
    expect(fading({ bar: 2, text: 'pp' })).toEqual([1]);
  });

  it('one without an end is none', () => {
    expect(marksAsked(marked(score, { bar: 1, text: '<' }, { bar: 2, text: '>', until: [3, 1] })).right.hairpins.map(({ kind }) => kind)).toEqual(['diminuendo']);
  });
});

it('a repeat asks again', () => {
  const repeated = scoreOf(run(right, 8), { order: [1, 2, 1, 2] });
  expect(marksAsked(marked(repeated, { bar: 1, text: 'p' }, { bar: 2, text: 'f' })).right.marks.map(({ text, tick, visitIndex }) => [text, tick / BAR, visitIndex])).toEqual([['p', 0, 0], ['f', 1, 1], ['p', 2, 2], ['f', 3, 3]]);
});
