import { describe, expect, it } from 'vitest';
import { headTicks, tickPlaces } from '../../../src/engrave/index.js';
import { scoreOf, systemOf } from './system.js';

/** Two bars of four ticks: heads on ticks 0 and 2 of the first; the second begins with a rest, its head on its third tick. */
const SCORE = scoreOf(2, { a: 0, b: 2, c: 6 });
const SYSTEM = systemOf([[12, 112], [112, 212]], [{ id: 'a', x: 60, y: 40 }, { id: 'b', x: 86, y: 40 }, { id: 'c', x: 170, y: 40 }]);
const PLACES = tickPlaces(SYSTEM, SCORE, headTicks(SCORE));

describe('where written moments stand', () => {
  it.each([
    // under their heads
    [0, 60], [2, 86], [6, 170],
    // half-way between two heads; between the last head and the bar line (86 and 112)
    [1, 73], [3, 99],
    // a bar that begins with a rest: 12 px behind its bar line; half-way from there (124) to the head at 170
    [4, 124], [5, 147],
    // before the system
    [-3, 60],
  ])('tick %d is at %d px', (tick, x) => {
    expect(PLACES.at(tick)).toBeCloseTo(x, 9);
  });

  it('ends lie under the next onset, or at the end of the system', () => {
    expect(PLACES.until(4)).toBeCloseTo(124, 9);
    expect(PLACES.until(8)).toBe(212);
    expect(PLACES.until(99)).toBe(212);
    expect([PLACES.fromTick, PLACES.toTick, PLACES.startX, PLACES.endX]).toEqual([0, 8, 60, 212]);
  });

  it('takes the middling head where a second stands beside its chord', () => {
    const score = scoreOf(1, { a: 0, b: 0, c: 0 });
    const system = systemOf([[12, 112]], [{ id: 'a', x: 60, y: 40 }, { id: 'b', x: 69, y: 36 }, { id: 'c', x: 60, y: 50 }]);
    expect(tickPlaces(system, score, headTicks(score)).at(0)).toBe(60);
  });

  it('looks before the first head where a system begins with a rest', () => {
    // the head on tick 2 stands at 132, two ticks and 80 px before the bar line: 40 px a tick, so the start is at 52
    const score = scoreOf(1, { a: 2 });
    expect(tickPlaces(systemOf([[12, 212]], [{ id: 'a', x: 132, y: 40 }]), score, headTicks(score)).at(0)).toBeCloseTo(52, 9);
  });

  it('lets no beat stand over the clef where the first head comes late and close to the bar line', () => {
    // a head on the last tick, 20 px before the bar line (192): three ticks back is 132
    const at = (x: number): number => {
      const score = scoreOf(1, { a: 3 });
      return tickPlaces(systemOf([[12, 212]], [{ id: 'a', x, y: 40 }]), score, headTicks(score)).at(0);
    };
    expect(at(192)).toBeCloseTo(132, 9);
    // 70 px before it: 142 less three times 70 would lie left of the page
    expect(at(142)).toBe(48);
    expect(at(40)).toBe(40);
  });

  it('keeps within the bar where a bar is empty or too short for its rest', () => {
    const score = scoreOf(2, {});
    const places = tickPlaces(systemOf([[12, 52], [52, 58]], []), score, headTicks(score));
    // no head at all: half of the first bar, since 84 px would lie beyond it
    expect(places.at(0)).toBe(32);
    expect(places.at(4)).toBe(58);
  });

  it('does not trust grace notes, which stand before their moment', () => {
    const score = scoreOf(1, { grace: 0, main: 0 });
    const notes = score.notes.map((note) => (note.id === 'grace' ? { ...note, grace: { slash: true, before: 1, after: false } } : note));
    const system = systemOf([[12, 112]], [{ id: 'grace', x: 50, y: 40 }, { id: 'main', x: 62, y: 40 }]);
    expect(tickPlaces(system, score, headTicks({ notes })).at(0)).toBe(62);
  });

  it('gives a place for a system without bars', () => {
    const places = tickPlaces(systemOf([], []), scoreOf(0, {}), new Map());
    expect([places.at(3), places.until(3), places.startX]).toEqual([0, 0, 0]);
  });
});
