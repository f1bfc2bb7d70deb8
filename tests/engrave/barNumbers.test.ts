import { expect, test } from 'vitest';
import { barNumbers } from '../../src/engrave/barNumbers.js';
import { smallScore } from './fixture.js';

const [first] = smallScore().bars;
const bar = (index: number, number: string, implicit = false): typeof first => ({ ...first!, index, number, implicit });
const texts = (svg: string): string[] => [...svg.matchAll(/>([^<]+)</g)].map(([, text]) => text!);
const baseline = (svg: string): number => Number(/ y="([^"]+)"/.exec(svg)![1]);

test('none at an upbeat, at bar 1 and at uncounted bars; names stay as they are', () => {
  const bars = [bar(0, '0'), bar(1, '1'), bar(2, '2'), bar(3, 'X1', true), bar(4, '12a')].map((each, i) => ({ bar: each, left: 100 * i }));
  expect(texts(barNumbers(bars, 50, []).svg)).toEqual(['2', '12a']);
});

test('a bar 1 that stands later (a second movement) is numbered', () => {
  expect(texts(barNumbers([{ bar: bar(40, '1'), left: 0 }], 50, []).svg)).toEqual(['1']);
});

test('the base line is 20 px above the stave where nothing is in the way', () => {
  expect(baseline(barNumbers([{ bar: bar(2, '2'), left: 100 }], 50, []).svg)).toBe(30);
});

test('a slur under one number lifts all of the system to 7 px above it', () => {
  const ink = [{ left: 190, right: 230, top: 25, bottom: 28 }];
  const { svg } = barNumbers([{ bar: bar(2, '2'), left: 100 }, { bar: bar(3, '3'), left: 200 }], 50, ink);
  expect([...svg.matchAll(/ y="([^"]+)"/g)].map(([, y]) => Number(y))).toEqual([18, 18]);
});

test('ink beside the numbers does not lift them', () => {
  expect(baseline(barNumbers([{ bar: bar(2, '2'), left: 100 }], 50, [{ left: 130, right: 160, top: 5, bottom: 9 }]).svg)).toBe(30);
});
