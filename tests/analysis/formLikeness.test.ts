import { describe, expect, it } from 'vitest';
import { barContents, type BarContent } from '../../src/analysis/formBars.js';
import { common, commonRoots, likeness } from '../../src/analysis/formLikeness.js';
import { score } from '../align/build.js';
import { chords } from './harmonies.js';

/** Two bars of one text each, with the same chord over both unless said. */
function pair(first: string, second: string, roots: readonly [string, string] = ['C', 'C']): readonly [BarContent, BarContent] {
  const written = score([{ right: first, left: 'C3/4' }, { right: second, left: 'C3/4' }]);
  const [a, b] = barContents(written, chords(written, `1 ${roots[0]}`, `2 ${roots[1]}`));
  return [a!, b!];
}

describe('common elements (Dice 1945)', () => {
  it('is twice the common ones over all', () => {
    // {1, 2, 3} and {2, 3, 4, 5}: two in common, seven in all: 4 / 7
    expect(common([1, 2, 3], [2, 3, 4, 5], 0)).toBeCloseTo(4 / 7, 12);
  });

  it('shifts the first list', () => {
    expect(common([60, 64, 67], [65, 69, 72], 5)).toBe(1);
    expect(common([60, 64, 67], [65, 69, 72], 0)).toBe(0);
  });

  it('counts doubled elements as often as they are there', () => {
    // {5, 5} and {5}: one in common, three in all
    expect(common([5, 5], [5], 0)).toBeCloseTo(2 / 3, 12);
  });

  it('calls two empty lists the same, one empty list unlike', () => {
    expect(common([], [], 0)).toBe(1);
    expect(common([], [1], 0)).toBe(0);
  });

  it('compares roots beat by beat, unknown ones never alike', () => {
    expect(commonRoots([0, 7, null, 5], [0, 7, null, 0], 0)).toBe(0.5);
    expect(commonRoots([0, 7], [5, 0], 5)).toBe(1);
  });
});

describe('two bars', () => {
  it('is 1 for the same bar', () => {
    const [a, b] = pair('C4 D4 E4 F4', 'C4 D4 E4 F4');
    expect(likeness(a, b)).toEqual({ share: 1, shift: 0 });
  });

  it('weighs sounds 0.5, tune 0.2, onsets 0.15, roots 0.15', () => {
    // one of four tune notes differs: sounds 2*4/10 = 0.8 (the left hand's C counts), tune 2*3/8 = 0.75, onsets and roots 1
    const [a, b] = pair('C4 D4 E4 F4', 'C4 D4 E4 G4');
    expect(likeness(a, b).share).toBeCloseTo(0.5 * 0.8 + 0.2 * 0.75 + 0.15 + 0.15, 12);
  });

  it('finds the tune an octave higher', () => {
    const written = score(['C4 D4 E4 F4', 'C5 D5 E5 F5']);
    const [a, b] = barContents(written, chords(written, '1 C'));
    expect(likeness(a!, b!)).toEqual({ share: 1, shift: 12 });
  });

  it('finds it a fourth higher, where the roots go along', () => {
    const written = score(['C4 D4 E4 C4', 'F4 G4 A4 F4']);
    const [a, b] = barContents(written, chords(written, '1 C', '2 F'));
    expect(likeness(a!, b!)).toEqual({ share: 1, shift: 5 });
  });

  it('does not compare other rhythms', () => {
    // onsets of the right hand 0, 1, 2, 3 and 1.5 only, of the left 0 and none: nothing in common
    const written = score(['C4 C4 C4 C4', 'r/1.5 C4/2.5']);
    const [a, b] = barContents(written, chords(written, '1 C'));
    expect(likeness(a!, b!).share).toBe(0);
  });

  it('has nothing to say of an empty bar', () => {
    const written = score(['C4/4', 'r/4', 'r/4']);
    const [a, b, c] = barContents(written, chords(written, '1 C'));
    expect(likeness(a!, b!).share).toBe(0);
    expect(likeness(b!, c!).share).toBe(0);
  });
});
