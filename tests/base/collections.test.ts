import { describe, expect, it } from 'vitest';
import { firstIndex, groupBy } from '../../src/base/index.js';

describe('the first index that has reached something', () => {
  const list = [1, 3, 3, 7];
  const from = (value: number, start?: number): number => firstIndex(list.length, (i) => list[i]! >= value, start);

  it('is the first of equal ones, and the length where there is none', () => {
    expect([0, 1, 2, 3, 7, 8].map((value) => from(value))).toEqual([0, 0, 1, 1, 3, 4]);
  });

  it('is never before the start, nor beyond an empty list', () => {
    expect(from(0, 2)).toBe(2);
    expect(from(9, 4)).toBe(4);
    expect(firstIndex(0, () => true)).toBe(0);
  });
});

describe('groups', () => {
  it('stand in order of first appearance, with their items in order', () => {
    expect([...groupBy(['bar', 'tie', 'beat', 'trill', 'key'], (word) => word.charAt(0))]).toEqual([['b', ['bar', 'beat']], ['t', ['tie', 'trill']], ['k', ['key']]]);
    expect(groupBy([], () => 0).size).toBe(0);
  });
});
