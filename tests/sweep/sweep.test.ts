import { describe, expect, it } from 'vitest';
import { SWEEPS, type Sweep } from './kinds.js';
import { isKept, sweepLines, sweepRows } from './table.js';

const PLAYERS = 20;

it('every kind that is planted has its sweep', () => {
  expect(SWEEPS.map(({ kind }) => kind)).toEqual(expect.arrayContaining(['even-dots', 'hesitation', 'rushing', 'late-left', 'short-long-notes', 'filled-rest', 'long-staccato', 'detached-slur']));
});

describe.each(SWEEPS)('$kind', (sweep) => {
  it('names sizes of its list for its two bounds', () => {
    expect(sweep.sizes).toContain(sweep.silentUpTo);
    expect(sweep.sizes.indexOf(sweep.foundFrom)).toBeGreaterThan(sweep.sizes.indexOf(sweep.silentUpTo));
  });

  it('is silent at the last size that must be, found at twice what is clear', () => {
    const bounds: Sweep = { ...sweep, sizes: [sweep.silentUpTo, sweep.foundFrom] };
    const [silent, found] = sweepRows(bounds, PLAYERS);
    expect(silent?.found).toBe(0);
    expect(found?.found).toBeGreaterThanOrEqual(0.95);
  });
});

describe('the table', () => {
  // found by one player in two at the middle size, by all at the last; weights 0.3 and 0.6
  const called = (kind: string, weight: number) => ({ aspect: 'touch' as const, kind, hand: null, topic: '', places: [], measured: { value: 1, unit: '', threshold: 1 }, weight, confidence: 1, text: '', advice: '' });
  const judged = (observations: readonly ReturnType<typeof called>[]) => ({ aspect: 'touch' as const, concern: { measured: true as const, value: 0 }, summary: '', observations });
  const sweep: Sweep = {
    kind: 'long-dots', size: 'share', sizes: [1, 2, 3], silentUpTo: 1, foundFrom: 3, called: ['long'],
    judge: (size, seed) => judged(size === 3 || (size === 2 && seed % 2 === 0) ? [called('long', 0.3), called('long', 0.6), called('other', 0.9)] : [called('other', 0.9)]),
  };

  it('has the share of players and the mean of what weighs most of its kind', () => {
    expect(sweepRows(sweep, 4)).toEqual([{ size: 1, found: 0, weight: null, asked: 'silent' }, { size: 2, found: 0.5, weight: 0.6, asked: null }, { size: 3, found: 1, weight: 0.6, asked: 'found' }]);
  });

  it('says what is not kept', () => {
    const rows = sweepRows({ ...sweep, silentUpTo: 2, foundFrom: 3 }, 4);
    expect(rows.map(isKept)).toEqual([true, false, true]);
    expect(sweepLines(sweep, rows).at(-1)?.trim().split(/ +/)).toEqual(['asked', 'silent', 'HEARD', 'found']);
  });
});
