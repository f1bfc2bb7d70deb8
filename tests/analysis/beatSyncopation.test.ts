import { describe, expect, it } from 'vitest';
import { metreDivisions } from '../../src/analysis/beatMetre.js';
import { metreSpans, metricWeight, strongestBetween, syncopations } from '../../src/analysis/beatSyncopation.js';

/** Weights of every unit of a bar. */
function weights(beats: number, beatType: number, units: number): number[] {
  const spans = metreSpans(units, metreDivisions({ beats, beatType, symbol: null }));
  // + 0 turns -0 into 0
  return Array.from({ length: units }, (_, unit) => metricWeight(unit, spans) + 0);
}

/** Strengths in the form of the program that carries the theory: one more each, 0 for none, notes of one unit left out. */
function raised([beats, beatType]: readonly [number, number], units: number, lengths: readonly number[]): number[] {
  const spans = metreSpans(units, metreDivisions({ beats, beatType, symbol: null }));
  return syncopations(lengths, spans).flatMap((strength, i) => (lengths[i] === 1 ? [] : [strength === null ? 0 : strength + 1]));
}

// Longuet-Higgins & Lee 1984, "The rhythmic interpretation of monophonic music", Music Perception 1:424-441 (from a secondary copy)
describe('weights of the metre (Longuet-Higgins & Lee 1984)', () => {
  it('simple time', () => {
    expect(weights(4, 4, 8)).toEqual([0, -3, -2, -3, -1, -3, -2, -3]);
    expect(weights(3, 4, 6)).toEqual([0, -2, -1, -2, -1, -2]);
    expect(weights(3, 2, 12)).toEqual([0, -3, -2, -3, -1, -3, -2, -3, -1, -3, -2, -3]);
  });
  it('compound time', () => {
    expect(weights(6, 8, 6)).toEqual([0, -2, -2, -1, -2, -2]);
    expect(weights(9, 8, 9)).toEqual([0, -2, -2, -1, -2, -2, -1, -2, -2]);
    expect(weights(12, 8, 12)).toEqual([0, -3, -3, -2, -3, -3, -1, -3, -3, -2, -3, -3]);
  });
});

describe('strength of a syncopation (Longuet-Higgins & Lee 1984)', () => {
  const strengths = (time: readonly [number, number], units: number, lengths: readonly number[]): readonly (number | null)[] =>
    syncopations(lengths, metreSpans(units, metreDivisions({ beats: time[0], beatType: time[1], symbol: null })));

  it('figure 9 of the paper', () => {
    expect(strengths([4, 4], 4, [1, 3])).toEqual([null, 1]);
    expect(strengths([4, 4], 8, [2, 1, 3, 2])).toEqual([null, null, 2, null]);
    expect(strengths([4, 4], 4, [3, 1])).toEqual([null, null]);
    expect(strengths([3, 4], 3, [2, 1])).toEqual([null, null]);
    expect(strengths([3, 4], 3, [1, 2])).toEqual([null, 0]);
  });
  it('worked values of the secondary copy, raised by one', () => {
    expect(raised([6, 8], 6, [3, 1, 2])).toEqual([0, 1]);
    expect(raised([4, 4], 4, [1, 2, 1])).toEqual([2]);
    expect(raised([4, 4], 8, [1, 2, 1, 1, 3])).toEqual([2, 2]);
    expect(raised([4, 4], 8, [1, 4, 3])).toEqual([3, 2]);
    expect(raised([4, 4], 8, [1, 2, 2, 2, 1])).toEqual([2, 3, 2]);
  });
  it('by the rule where a remark in the secondary copy contradicts it', () => expect(raised([4, 4], 8, [5, 3])).toEqual([0, 2]));
  it('the son clave, by the rule', () => expect(raised([4, 4], 16, [3, 3, 4, 2, 4])).toEqual([0, 3, 3, 0, 0]));
});

describe('positions passed', () => {
  const spans = metreSpans(8, [2, 2]);
  it('names the first of the strongest', () => {
    // from the second quaver to the seventh the half bar (position 4) is passed, one level below the first beat
    expect(strongestBetween(1, 6, spans)).toEqual({ position: 4, weight: -1 });
    expect(strongestBetween(3, 9, spans)).toEqual({ position: 8, weight: -0 });
  });
  it('passes nothing between neighbours', () => expect(strongestBetween(3, 4, spans)).toBeNull());
  it('refuses a bar without a length', () => expect(() => metreSpans(0, [2])).toThrow(RangeError));
});

describe('how metres divide', () => {
  it.each([
    [[2, 4], [2]], [[4, 4], [2, 2]], [[3, 4], [3]], [[3, 8], [3]], [[6, 8], [2, 3]], [[9, 8], [3, 3]], [[12, 16], [2, 2, 3]], [[5, 4], [5]], [[1, 4], []],
  ])('%j', ([beats, beatType], divisions) => expect(metreDivisions({ beats: beats!, beatType: beatType!, symbol: null })).toEqual(divisions));
});
