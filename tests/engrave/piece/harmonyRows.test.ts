import { describe, expect, it } from 'vitest';
import { degreeLabel, headTicks, placeNames, tickPlaces, type PlacedName } from '../../../src/engrave/index.js';
import type { Harmony } from '../../../src/harmony/index.js';
import { seededRandom } from '../../../src/base/index.js';
import { harmonyOf, scoreOf, systemOf } from './system.js';

/** Two bars whose ticks stand 20 px apart from 60 on. */
const SCORE = scoreOf(2, { a: 0, b: 1, c: 2, d: 3, e: 4, f: 5, g: 6, h: 7 });
const HEADS = Object.keys({ a: 0, b: 1, c: 2, d: 3, e: 4, f: 5, g: 6, h: 7 }).map((id, i) => ({ id, x: 60 + 20 * i, y: 40 }));
const SYSTEM = systemOf([[12, 140], [140, 220]], HEADS);
const PLACES = tickPlaces(SYSTEM, SCORE, headTicks(SCORE));
const place = (harmonies: readonly Harmony[], places = PLACES): readonly PlacedName[] => placeNames(harmonies, places, ({ degree }) => degreeLabel(degree, 18));

describe('names under their ticks', () => {
  it('stand 4 px right of their onset, in the first row where there is room', () => {
    const [first, second] = place([harmonyOf(0, 4), harmonyOf(4, 8, 'V')]);
    expect([first?.x, first?.nameX, first?.row]).toEqual([60, 64, 0]);
    expect([second?.x, second?.nameX, second?.row]).toEqual([140, 144, 0]);
  });

  it('go a row lower where the one before is in the way, and come back after it', () => {
    // "viiø65" from 64 on is wider than the 20 px to the next onset
    const rows = place([harmonyOf(0, 1, 'viiø65'), harmonyOf(1, 2, 'I'), harmonyOf(4, 8, 'I')]).map(({ row }) => row);
    expect(rows).toEqual([0, 1, 0]);
  });

  it('leave only the tick where three rows are taken', () => {
    const wide = Array.from({ length: 5 }, (_, i) => harmonyOf(i, i + 1, 'viiø65/vii'));
    // about 70 px each, 20 px apart: the fourth finds all three rows taken, the fifth the first row free again
    expect(place(wide).map(({ row }) => row)).toEqual([0, 1, 2, null, 0]);
  });

  it('stand left of their tick at the end of a system', () => {
    const [last] = place([harmonyOf(7, 8, 'V7/VI')]);
    expect(last?.x).toBe(200);
    expect(last!.nameX + last!.label.widthPx).toBeCloseTo(196, 9);
  });

  it('remind in brackets of what goes on from the system before, and give way to what begins', () => {
    const places = { ...PLACES, fromTick: 2, startX: 100 };
    const [first] = place([harmonyOf(0, 8, 'I')], places);
    expect(first?.goesOn).toBe(true);
    expect(first?.label.pieces.map((piece) => (piece.kind === 'text' ? piece.text : ''))).toEqual(['(', 'I', ')']);
    expect(place([harmonyOf(0, 3, 'I'), harmonyOf(3, 8, 'V')], places).map(({ goesOn }) => goesOn)).toEqual([false]);
  });

  it('never touch one another, however dense', () => {
    const random = seededRandom(7);
    const degrees = ['I', 'V7', 'viiø65/V', 'bVI', 'It6', 'ii42', 'V(64)'];
    for (let round = 0; round < 200; round++) {
      const cuts = [...new Set(Array.from({ length: 24 }, () => Math.round(random() * 160) / 20))].sort((a, b) => a - b);
      const names = place(cuts.slice(0, -1).map((from, i) => harmonyOf(from, cuts[i + 1] ?? 8, degrees[Math.floor(random() * degrees.length)])));
      for (const row of [0, 1, 2]) {
        const boxes = names.filter((name) => name.row === row).map(({ x, nameX, label }) => [Math.min(x, nameX), Math.max(x, nameX + label.widthPx)] as const);
        boxes.slice(1).forEach(([left], i) => expect(left).toBeGreaterThanOrEqual(boxes[i]![1] + 4));
      }
    }
  });
});
