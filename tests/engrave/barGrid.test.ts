import { expect, test } from 'vitest';
import { barGrid, createToolkit, engraveOrGrid, NO_NOTATION } from '../../src/engrave/index.js';
import { smallScore } from './fixture.js';

const score = smallScore(4);
const grid = barGrid(score, { widthPx: 656, reason: 'because' });

test('eight bars make two rows of four at 656 px, four of two at 358 px', () => {
  expect(grid.systems.map(({ bars }) => bars.length)).toEqual([4, 4]);
  expect(barGrid(score, { widthPx: 358, reason: '' }).systems.map(({ bars }) => bars.length)).toEqual([2, 2, 2, 2]);
});

test('a column narrower than one bar still shows one a row', () => {
  expect(barGrid(score, { widthPx: 100, reason: '' }).systems[0]!.bars).toHaveLength(1);
});

test('it says why', () => {
  expect(grid.fallback).toBe('because');
});

test('every note has a place inside its bar and system', () => {
  expect(grid.systems.flatMap(({ notes }) => notes)).toHaveLength(score.notes.length);
  const barOf = new Map(score.notes.map(({ id, barIndex }) => [id, barIndex]));
  for (const { bars, notes, heightPx } of grid.systems) {
    for (const { id, x, y } of notes) {
      const bar = bars.find(({ barIndex }) => barIndex === barOf.get(id))!;
      expect(x).toBeGreaterThan(bar.left);
      expect(x).toBeLessThan(bar.right);
      expect(y).toBeGreaterThan(0);
      expect(y).toBeLessThan(heightPx);
    }
  }
});

test('time goes right and pitch goes up: C4 one line under the treble stave, F5 on its top line, A3 on the bass stave’s top line', () => {
  const [{ staves, notes }] = [grid.systems[0]!];
  const at = (id: string): { x: number; y: number } => notes.find((note) => note.id === id)!;
  expect(at('top-line').y).toBeCloseTo(staves[0]!.top, 6);
  expect(at('middle-c').y).toBeCloseTo(staves[0]!.bottom + grid.staveSpacePx, 6);
  expect(at('bass-top').y).toBeCloseTo(staves[1]!.top, 6);
  expect(at('bass-top').x).toBeCloseTo(at('top-line').x, 6);
  // beats two and three: a quarter of the bar's usable width further each
  expect(at('middle-c').x - at('bottom-line').x).toBeCloseTo(at('bottom-line').x - at('top-line').x, 6);
});

test('a score without notation gets the grid and the reason', async () => {
  const engraving = await engraveOrGrid({ ...score, xml: null }, { widthPx: 656, toolkit: createToolkit() });
  expect(engraving.fallback).toBe(NO_NOTATION);
});

test('a score that the engraver cannot draw gets the grid and the reason', async () => {
  const engraving = await engraveOrGrid({ ...score, xml: '<score-partwise/>' }, { widthPx: 656, toolkit: createToolkit() });
  expect(engraving.fallback).toMatch(/engraver/i);
  expect(engraving.systems).toHaveLength(2);
});

test('a good score is engraved', async () => {
  expect((await engraveOrGrid(score, { widthPx: 656, toolkit: createToolkit() })).fallback).toBeNull();
});
