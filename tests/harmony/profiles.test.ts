/**
 * Published profiles and worked correlations. Witnesses: Krumhansl and Kessler 1982 with the worked example published
 * beside it (durations C to B, and equal weights for scales and triads).
 */
import { describe, expect, test } from 'vitest';
import { CBMS, keyCorrelations, keyNumber, KOSTKA_PAYNE, KRUMHANSL_KESSLER } from '../../src/harmony/index.js';

/** The published worked durations, C to B. */
const WORKED = [432, 231, 0, 405, 12, 316, 4, 126, 612, 0, 191, 1];

/** Twelve weights, 1 where a pitch class is named. */
const equal = (...pcs: readonly number[]): readonly number[] => Array.from({ length: 12 }, (_, pc) => (pcs.includes(pc) ? 1 : 0));

describe('correlation with every key', () => {
  test.each([
    { name: 'C major', tonic: 0, mode: 'major', expected: -0.00009, digits: 5 },
    { name: 'A flat major', tonic: 8, mode: 'major', expected: 0.9697, digits: 4 },
    { name: 'F minor', tonic: 5, mode: 'minor', expected: 0.7745, digits: 4 },
    { name: 'C minor', tonic: 0, mode: 'minor', expected: 0.6223, digits: 4 },
    { name: 'E flat major', tonic: 3, mode: 'major', expected: 0.5788, digits: 4 },
    { name: 'D flat major', tonic: 1, mode: 'major', expected: 0.5384, digits: 4 },
  ] as const)('worked durations: $name', ({ tonic, mode, expected, digits }) => {
    expect(keyCorrelations(WORKED)[keyNumber(tonic, mode)]).toBeCloseTo(expected, digits);
  });

  test.each([
    { name: 'C major scale in C major', weights: equal(0, 2, 4, 5, 7, 9, 11), tonic: 0, mode: 'major', expected: 0.7564 },
    { name: 'C major scale in A minor', weights: equal(0, 2, 4, 5, 7, 9, 11), tonic: 9, mode: 'minor', expected: 0.7121 },
    { name: 'C harmonic minor scale in C minor', weights: equal(0, 2, 3, 5, 7, 8, 11), tonic: 0, mode: 'minor', expected: 0.6872 },
    { name: 'C E G in C major', weights: equal(0, 4, 7), tonic: 0, mode: 'major', expected: 0.8338 },
    { name: 'C E flat G in C minor', weights: equal(0, 3, 7), tonic: 0, mode: 'minor', expected: 0.8886 },
  ] as const)('equal weights: $name', ({ weights, tonic, mode, expected }) => {
    expect(keyCorrelations(weights)[keyNumber(tonic, mode)]).toBeCloseTo(expected, 4);
  });

  test('weights that do not differ say nothing', () => {
    expect(keyCorrelations(new Array<number>(12).fill(1))).toEqual(new Array<number>(24).fill(0));
  });

  test('eleven weights are a misuse', () => {
    expect(() => keyCorrelations(new Array<number>(11).fill(1))).toThrow(RangeError);
  });
});

describe('tables as published', () => {
  test('Krumhansl and Kessler 1982', () => {
    expect(KRUMHANSL_KESSLER.major.join(' ')).toBe('6.35 2.23 3.48 2.33 4.38 4.09 2.52 5.19 2.39 3.66 2.29 2.88');
    expect(KRUMHANSL_KESSLER.minor.join(' ')).toBe('6.33 2.68 3.52 5.38 2.6 3.53 2.54 4.75 3.98 2.69 3.34 3.17');
  });

  test('CBMS, Temperley 1999', () => {
    expect(CBMS.major.join(' ')).toBe('5 2 3.5 2 4.5 4 2 4.5 2 3.5 1.5 4');
    expect(CBMS.minor.join(' ')).toBe('5 2 3.5 4.5 2 4 2 4.5 3.5 2 1.5 4');
  });

  test('Kostka-Payne, Temperley 2007', () => {
    expect(KOSTKA_PAYNE.major.join(' ')).toBe('0.748 0.06 0.488 0.082 0.67 0.46 0.096 0.715 0.104 0.366 0.057 0.4');
    expect(KOSTKA_PAYNE.minor.join(' ')).toBe('0.712 0.084 0.474 0.618 0.049 0.46 0.105 0.747 0.404 0.067 0.133 0.33');
  });
});
