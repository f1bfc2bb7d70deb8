import { describe, expect, it } from 'vitest';
import { shakes } from '../../src/align/shakes.js';
import { keys, presses, type Key } from './build.js';

const flags = (...lists: readonly (readonly Key[])[]): string => Array.from(shakes(presses(...lists))).join('');

describe('a trill plain from the playing', () => {
  it('is two keys in turn, quickly', () => {
    expect(flags(keys(0, 0.1, 'E5 F5 E5 F5 E5 F5 E5 F5'))).toBe('11111111');
  });

  it('is a tremolo of an octave as well, and nothing wider', () => {
    expect(flags(keys(0, 0.1, 'C4 C5 C4 C5 C4 C5 C4 C5'))).toBe('11111111');
    expect(flags(keys(0, 0.1, 'C4 C#5 C4 C#5 C4 C#5 C4 C#5'))).toBe('00000000');
  });

  it('needs three returns of a key', () => {
    // E5 comes back twice, F5 twice
    expect(flags(keys(0, 0.1, 'E5 F5 E5 F5 E5 F5'))).toBe('000000');
    expect(flags(keys(0, 0.1, 'E5 F5 E5 F5 E5 F5 E5'))).toBe('1111111');
  });

  it('is not slow', () => {
    // a key comes back after 0.4 s exactly, then after a little more
    expect(flags(keys(0, 0.25, 'E5 F5 E5 F5 E5 F5 E5 F5'))).toBe('00000000');
    expect(flags(keys(0, 0.1875, 'E5 F5 E5 F5 E5 F5 E5 F5'))).toBe('11111111');
  });

  it('leaves the other hand and what stands around it alone', () => {
    // C5 D5 before, G5 A5 after, C3 and G3 under the trill
    const over = keys(0, 0.1, 'C5 D5 E5 F5 E5 F5 E5 F5 E5 F5 G5 A5');
    const under = keys(0.25, 0.4, 'C3 G3');
    const inTime = presses(over, under).map((press) => press.key);
    const marked = Array.from(shakes(presses(over, under))).flatMap((flag, i) => (flag ? [inTime[i]] : []));
    expect(marked).toEqual([76, 77, 76, 77, 76, 77, 76, 77]);
  });

  it('is no repeated note and no broken chord', () => {
    expect(flags(keys(0, 0.1, 'E5 E5 E5 E5 E5 E5 E5 E5'))).toBe('00000000');
    expect(flags(keys(0, 0.15, 'C4 E4 G4 C4 E4 G4 C4 E4 G4 C4 E4 G4'))).toBe('000000000000');
  });

  it('is none in nothing', () => {
    expect(flags([])).toBe('');
  });
});
