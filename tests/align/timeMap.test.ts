import { describe, expect, it } from 'vitest';
import { timeMapOf } from '../../src/align/timeMap.js';

const map = (points: Record<number, readonly number[]>, fallback = 0.001): ReturnType<typeof timeMapOf> =>
  timeMapOf(new Map(Object.entries(points).map(([tick, times]) => [Number(tick), times])), fallback);

describe('expected times', () => {
  it('lie on a straight line between the notes played', () => {
    const times = map({ 0: [1], 100: [2], 200: [4] });
    expect([0, 50, 100, 150, 200].map((tick) => times.at(tick))).toEqual([1, 1.5, 2, 3, 4]);
  });

  it('go on at the local slope beyond the ends', () => {
    const times = map({ 0: [1], 100: [2] });
    expect([times.at(-100), times.at(300)]).toEqual([0, 4]);
    expect([-50, 0, 50, 500].map((tick) => times.secondsPerTick(tick))).toEqual([0.01, 0.01, 0.01, 0.01]);
  });

  it('take the median of the notes struck together', () => {
    // of 1.0, 1.02 and a straggler at 1.9: 1.02
    expect(map({ 0: [1.9, 1, 1.02], 100: [2] }).at(0)).toBe(1.02);
  });

  it('never run backwards: neighbours out of order share their mean', () => {
    const times = map({ 0: [0], 100: [3], 200: [2], 300: [4] });
    // 3 and 2 make 2.5 each
    expect([0, 100, 150, 200, 300].map((tick) => times.at(tick))).toEqual([0, 2.5, 2.5, 2.5, 4]);
  });

  it('pool as many as it takes', () => {
    const times = map({ 0: [5], 100: [3], 200: [1], 300: [9] });
    expect([0, 100, 200, 300].map((tick) => times.at(tick))).toEqual([3, 3, 3, 9]);
  });

  it('go by the fallback about a single note', () => {
    const times = map({ 100: [2] }, 0.005);
    expect([0, 100, 300].map((tick) => times.at(tick))).toEqual([1.5, 2, 3]);
    expect(times.secondsPerTick(0)).toBe(0.005);
  });
});
