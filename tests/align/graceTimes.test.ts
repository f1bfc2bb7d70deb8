import { describe, expect, it } from 'vitest';
import { graceOnsets, graceS } from '../../src/align/graceTimes.js';
import { layOutSlots } from '../../src/align/slots.js';
import { timeMapOf } from '../../src/align/timeMap.js';
import { keys, presses, score } from './build.js';

// slots: C4, the graces D4 E4 F4, then G4 one crotchet in, A4, B4
const read = score(['C4 grace:D4 grace:E4 grace:F4 G4 A4 B4']);
const slots = layOutSlots(read);
// a crotchet lasts half a second: G4 is expected at 0.5 s
const times = timeMapOf(new Map([[0, [0]], [read.ticksPerQuarter, [0.5]], [2 * read.ticksPerQuarter, [1]]]), 0.001);
const expected = (struck: ReadonlyMap<number, number>): number[] => [1, 2, 3].map((slot) => Math.round(1000 * graceS(slots, times, slot, struck)) / 1000);

describe('grace notes', () => {
  it('are expected shortly before their main note, 80 ms apart', () => {
    expect(expected(new Map())).toEqual([0.26, 0.34, 0.42]);
  });

  it('follow those of their group that were found, 80 ms apart', () => {
    // on the beat: the first one at 0.5 s
    expect(expected(new Map([[1, 0.5]]))).toEqual([0.5, 0.58, 0.66]);
    expect(expected(new Map([[3, 0.7]]))).toEqual([0.54, 0.62, 0.7]);
  });

  it('lie evenly between two that were found', () => {
    expect(expected(new Map([[1, 0.3], [3, 0.4]]))).toEqual([0.3, 0.35, 0.4]);
  });

  it('are looked up among the matches by slot, the first press of each', () => {
    const struck = presses(keys(0, 1, 'C4'), keys(0.3, 0.1, 'D4 D4 F4'));
    expect(graceOnsets(slots, struck, [[0, 0], [1, 2], [1, 1], [3, 3]])).toEqual(new Map([[1, 0.3], [3, 0.5]]));
  });

  it('of another main note do not count', () => {
    const two = score(['C4 grace:D4 G4 grace:A4 B4 E4']);
    const at = timeMapOf(new Map([[0, [0]], [two.ticksPerQuarter, [0.5]]]), 0.001);
    // the A4 before B4 (1.0 s), although D4 was found 0.2 s early
    expect(graceS(layOutSlots(two), at, 3, new Map([[1, 0.3]]))).toBeCloseTo(0.92, 10);
  });
});
