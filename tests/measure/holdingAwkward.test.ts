import { describe, expect, it } from 'vitest';
import type { Measured } from '../../src/base/index.js';
import { barFacts } from '../../src/measure/barFacts.js';
import { holdingFacts } from '../../src/measure/holdings.js';
import { onsetDeviations } from '../../src/measure/onsetDeviation.js';
import { AWKWARD } from './awkward.js';

/** Every number finite, every reason a sentence's end. */
function expectSound(value: Measured<unknown>): void {
  if (!value.measured) {
    expect(value.reason).toMatch(/^[a-z].{10,}[^.]$/);
    return;
  }
  const parts: readonly unknown[] = typeof value.value === 'object' && value.value !== null ? Object.values(value.value) : [value.value];
  for (const part of parts) expect(typeof part === 'boolean' || Number.isFinite(part)).toBe(true);
}

describe.each(AWKWARD)('$name', ({ piece }) => {
  const bars = barFacts(piece, onsetDeviations(piece));
  const holding = holdingFacts(piece, bars);

  it('one entry a pair and a bar, numbers finite, reasons the end of a sentence', () => {
    expect(holding.notes.map(({ pair }) => pair)).toEqual(piece.alignment.pairs.map((_, i) => i));
    expect(holding.bars).toHaveLength(bars.length);
    const values: readonly Measured<unknown>[] = [
      ...holding.notes.flatMap(({ length, join }): readonly Measured<unknown>[] => [length, join]),
      ...holding.bars.flatMap(({ right, left }) => [right, left]).flatMap(({ keyShare, soundShare, joined, dots, restHeld }) => [keyShare, soundShare, joined, dots, restHeld]),
    ];
    for (const value of values) expectSound(value);
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
