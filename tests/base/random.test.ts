import { mean, standardDeviation } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import { gaussian, seededRandom } from '../../src/base/index.js';

/** The same recipe once more in exact whole numbers of any size, modulo 2^32: an independent check of the 32-bit arithmetic. */
function exactRecipe(seed: bigint, count: number): number[] {
  const word = (value: bigint): bigint => BigInt.asUintN(32, value);
  let state = word(seed);
  return Array.from({ length: count }, () => {
    state = word(state + 0x6d2b79f5n);
    let mixed = word((state ^ (state >> 15n)) * (1n | state));
    mixed = word(word(mixed + word((mixed ^ (mixed >> 7n)) * (61n | mixed))) ^ mixed);
    return Number(mixed ^ (mixed >> 14n)) / 2 ** 32;
  });
}

const draw = (random: () => number, count: number): number[] => Array.from({ length: count }, () => random());

describe('seeded random numbers', () => {
  it.each([0, 1, 42, 0x7fffffff])('from seed %i follow the recipe bit for bit', (seed) => {
    expect(draw(seededRandom(seed), 100)).toEqual(exactRecipe(BigInt(seed), 100));
  });

  it('are the same for the same seed, others for another', () => {
    expect(draw(seededRandom(7), 20)).toEqual(draw(seededRandom(7), 20));
    expect(draw(seededRandom(7), 20)).not.toEqual(draw(seededRandom(8), 20));
  });

  it('two sources do not disturb one another', () => {
    const [a, b] = [seededRandom(7), seededRandom(9)];
    const mixed = Array.from({ length: 10 }, () => [a(), b()]);
    expect(mixed.map(([first]) => first)).toEqual(draw(seededRandom(7), 10));
  });

  it('only the low 32 bits of the seed count', () => {
    expect(draw(seededRandom(5 + 2 ** 32), 5)).toEqual(draw(seededRandom(5), 5));
  });

  it('fill the range from 0 (inclusive) to 1 (exclusive) evenly', () => {
    const count = 20_000;
    const numbers = draw(seededRandom(3), count);
    expect(numbers.every((number) => number >= 0 && number < 1)).toBe(true);
    // a uniform variable has mean 1/2 and deviation 1/sqrt(12) = 0.2887; the mean of 20000 scatters by 0.002: five times that
    expect(Math.abs(mean(numbers) - 0.5)).toBeLessThan(0.0102);
    // each tenth holds 2000 of them, scattering by sqrt(20000 * 0.1 * 0.9) = 42: five times that
    for (let tenth = 0; tenth < 10; tenth += 1) {
      const inside = numbers.filter((number) => Math.floor(number * 10) === tenth).length;
      expect(Math.abs(inside - count / 10)).toBeLessThan(212);
    }
  });
});

describe('normal numbers', () => {
  it('have mean 0, deviation 1 and the normal shares (Box and Muller 1958)', () => {
    const numbers = draw(gaussian(seededRandom(11)), 20_000);
    // scatter of the mean 1/sqrt(20000) = 0.0071, of the deviation 0.005: five times each
    expect(Math.abs(mean(numbers))).toBeLessThan(0.036);
    expect(Math.abs(standardDeviation(numbers) - 1)).toBeLessThan(0.025);
    // 68.27 % within one deviation, scattering by 0.33 %: five times that
    expect(Math.abs(numbers.filter((number) => Math.abs(number) < 1).length / 20_000 - 0.6827)).toBeLessThan(0.0165);
  });

  it('stay finite even where the source gives its lowest number', () => {
    expect(gaussian(() => 0)()).toBeCloseTo(0, 12); // sqrt(-2 ln 1) = 0
    expect(Number.isFinite(gaussian(() => 1 - 2 ** -32)())).toBe(true);
  });
});
