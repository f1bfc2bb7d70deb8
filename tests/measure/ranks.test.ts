import { expect, it } from 'vitest';
import { ranksOf } from '../../src/measure/ranks.js';

it('a rank is the share below, those equal counted half', () => {
  // of 40, 50, 50, 70: half of one below 40's own place (0.5 / 4); one and half of two below 50 (2 / 4); three and a half below 70
  const rankOf = ranksOf([50, 70, 40, 50]);
  expect([40, 50, 70].map(rankOf)).toEqual([0.125, 0.5, 0.875]);
});

it('values that are not in the list have a rank too, and all equal is the middle', () => {
  const rankOf = ranksOf([40, 50, 50, 70]);
  expect([10, 60, 99].map(rankOf)).toEqual([0, 0.75, 1]);
  expect(ranksOf([64, 64, 64])(64)).toBe(0.5);
  expect(ranksOf([])(64)).toBe(0.5);
});
