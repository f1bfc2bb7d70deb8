import { describe, expect, it } from 'vitest';
import { bigEndian, chunkName, littleEndian32, readVlq, VLQ_MAX, vlqBytes } from '../../src/recording/bytes.js';
import { hex } from './midiBytes.js';

// Standard MIDI File 1.1, table of variable-length quantities, both halves (V2: seen in a secondary copy)
const TABLE: readonly (readonly [number, string])[] = [
  [0x00, '00'], [0x40, '40'], [0x7f, '7F'], [0x80, '81 00'], [0x2000, 'C0 00'], [0x3fff, 'FF 7F'], [0x4000, '81 80 00'],
  [0x100000, 'C0 80 00'], [0x1fffff, 'FF FF 7F'], [0x200000, '81 80 80 00'], [0x8000000, 'C0 80 80 00'], [0xfffffff, 'FF FF FF 7F'],
];

describe('variable-length quantities', () => {
  it.each(TABLE)('Standard MIDI File 1.1: %i is %s', (value, text) => {
    expect(readVlq(Uint8Array.from(hex(text)), 0)).toEqual({ value, next: hex(text).length });
    expect(vlqBytes(value)).toEqual(hex(text));
  });

  it.each([
    [1000, '87 68'], // 1000 = 7 * 128 + 104, 104 = 68h; seen on a second page too (V2)
    [100000, '86 8D 20'], // 6 * 16384 + 13 * 128 + 32, from the rule
    [1000000, 'BD 84 40'], // 61 * 16384 + 4 * 128 + 64: printed on one page for 100000, which it is not
  ] as const)('decimal %i is %s', (value, text) => {
    expect(readVlq(Uint8Array.from(hex(text)), 0)?.value).toBe(value);
    expect(vlqBytes(value)).toEqual(hex(text));
  });

  it('Standard MIDI File 1.1: the largest has four bytes, a fifth is refused (V2)', () => {
    expect(VLQ_MAX).toBe(0x0fffffff);
    expect(readVlq(Uint8Array.from(hex('FF FF FF FF 7F')), 0)).toBeNull();
    expect(readVlq(Uint8Array.from(hex('80 80 80 80 00')), 0)).toBeNull();
  });

  it('gives null where the bytes end too soon', () => {
    expect(readVlq(Uint8Array.from(hex('81')), 0)).toBeNull();
    expect(readVlq(new Uint8Array(), 0)).toBeNull();
  });

  it.each([-1, 0.5, 0x10000000, NaN])('writing %d is our own misuse', (value) => {
    expect(() => vlqBytes(value)).toThrow(RangeError);
  });
});

describe('numbers and names in chunks', () => {
  it('reads either byte order', () => {
    const bytes = Uint8Array.from(hex('01 02 03 04'));
    expect(bigEndian(bytes, 0, 4)).toBe(0x01020304);
    expect(bigEndian(bytes, 2, 2)).toBe(0x0304);
    expect(littleEndian32(bytes, 0)).toBe(0x04030201);
  });

  it('takes only printable names of four letters', () => {
    expect(chunkName(Uint8Array.from(hex('4D 54 68 64')), 0)).toBe('MThd');
    expect(chunkName(Uint8Array.from(hex('4D 54 68')), 0)).toBeNull();
    expect(chunkName(Uint8Array.from(hex('FF D8 FF E0')), 0)).toBeNull();
  });
});
