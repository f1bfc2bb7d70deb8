import { describe, expect, it } from 'vitest';
import { pairKeys } from '../../src/align/pairKeys.js';

/** Pairs as `written:press`, places in the lists, for one tolerance. */
function pairs(expectedS: readonly number[], onsetsS: readonly number[], toleranceS = 0.2): string {
  const found: string[] = [];
  pairKeys(expectedS.map((at, id) => ({ id, expectedS: at, toleranceS })), onsetsS.map((onsetS, id) => ({ id, onsetS })), (w, o) => found.push(`${w.id}:${o.id}`));
  return found.sort().join(' ');
}

describe('presses of one key', () => {
  it('go to the written notes in order', () => {
    expect(pairs([1, 2, 3], [1.05, 2.1, 2.9])).toBe('0:0 1:1 2:2');
  });

  it('pair below twice the tolerance and not beyond: alone each costs one', () => {
    // tolerance 0.25 s (exact in binary): 0.5 s away costs 2, as much as leaving both alone; a pair wins the draw
    expect(pairs([1], [1.5], 0.25)).toBe('0:0');
    expect(pairs([1], [0.5], 0.25)).toBe('0:0');
    expect(pairs([1], [1.5001], 0.25)).toBe('');
  });

  it('take the nearer of two presses for one note', () => {
    expect(pairs([1], [0.9, 1.02])).toBe('0:1');
    expect(pairs([1], [0.98, 1.1])).toBe('0:0');
  });

  it('take the nearer of two notes for one press', () => {
    expect(pairs([1, 1.2], [1.15])).toBe('1:0');
  });

  it('never cross', () => {
    // the second note's nearest press comes before the first one's: order is kept, both are paired
    expect(pairs([1, 1.1], [1.02, 1.3])).toBe('0:0 1:1');
    expect(pairs([1, 1.05], [1.04, 1.06])).toBe('0:0 1:1');
  });

  it('leave a note out where that is cheaper by all costs together', () => {
    // shifted by one: note 0 is missed, the others are exact
    expect(pairs([1, 1.3, 1.6], [1.3, 1.6])).toBe('1:0 2:1');
  });

  it('are looked at apart where they lie far from one another', () => {
    expect(pairs([1, 50], [50.1])).toBe('1:0');
    expect(pairs([1, 50], [1.1])).toBe('0:0');
    expect(pairs([1, 20, 50], [1, 5, 20, 50])).toBe('0:0 1:2 2:3');
  });

  it('are none where there is nothing on one side', () => {
    expect(pairs([], [1, 2])).toBe('');
    expect(pairs([1, 2], [])).toBe('');
  });

  it('are found in long rows of repeated notes', () => {
    // 400 notes, 50 ms apart, press 7 missing, all 10 ms late
    const written = Array.from({ length: 400 }, (_, i) => i * 0.05);
    const struck = written.filter((_, i) => i !== 7).map((at) => at + 0.01);
    expect(pairs(written, struck, 0.1).split(' ')).toHaveLength(399);
  });

  it('cost no more than a band however long the row', () => {
    // 20,000 of each would be 400 million cells, 3.6 GB, in a full table; the band keeps 193 a row
    const written = Array.from({ length: 20_000 }, (_, i) => i * 0.05);
    expect(pairs(written, written, 0.1).split(' ')).toHaveLength(20_000);
    // arrayBuffers counts typed arrays that no collection has freed yet: 20,001 rows of 193 cells of 9 bytes are 35 MB
    expect(process.memoryUsage().arrayBuffers).toBeLessThan(200e6);
  });

  it('are none where far more presses than notes crowd together', () => {
    // 600 presses within 0.6 s for two notes: no path runs within the band, and none is made up
    expect(pairs([0.3, 0.31], Array.from({ length: 600 }, (_, i) => i * 0.001))).toBe('');
  });
});
