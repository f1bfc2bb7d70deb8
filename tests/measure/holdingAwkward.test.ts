import { describe, expect, it } from 'vitest';
import { barFacts } from '../../src/measure/barFacts.js';
import { holdingFacts } from '../../src/measure/holdings.js';
import { onsetDeviations } from '../../src/measure/onsetDeviation.js';
import { AWKWARD } from './awkward.js';

describe.each(AWKWARD)('$name', ({ piece }) => {
  const bars = barFacts(piece, onsetDeviations(piece));
  const holding = holdingFacts(piece, bars);

  it('one entry a pair and a bar, numbers finite, reasons the end of a sentence', () => {
    expect(holding.notes.map(({ pair }) => pair)).toEqual(piece.alignment.pairs.map((_, i) => i));
    expect(holding.bars).toHaveLength(bars.length);
    const values = [...holding.notes.flatMap(({ length, join }) => [length, join]), ...holding.bars.flatMap(({ right, left }) => [...Object.values(right), ...Object.values(left)])];
    for (const value of values) {
      if (!value.measured) expect(value.reason).toMatch(/^[a-z].{10,}[^.]$/);
      else for (const number of Object.values(typeof value.value === 'object' ? value.value : [value.value])) expect(typeof number === 'boolean' || Number.isFinite(number)).toBe(true);
    }
  });

  it('a length is longer than nothing, a silence never held for longer than it lasts', () => {
    for (const { length } of holding.notes) if (length.measured) expect(length.value.writtenS).toBeGreaterThan(0);
    for (const { fromS, toS, heldS, soundS } of holding.silences) {
      expect(toS).toBeGreaterThan(fromS);
      for (const part of [heldS, soundS]) expect(part >= 0 && part <= toS - fromS).toBe(true);
    }
  });
});

it('keys without a release have no length', () => {
  const hanging = AWKWARD.find(({ name }) => name === 'a repeated note with no release');
  const notes = hanging === undefined ? [] : holdingFacts(hanging.piece, []).notes;
  expect(notes.length).toBe(16);
  expect(notes.every(({ length }) => !length.measured)).toBe(true);
});
