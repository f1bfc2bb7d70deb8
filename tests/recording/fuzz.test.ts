import { describe, expect, it } from 'vitest';
import { InputError, seededRandom, type Random } from '../../src/base/index.js';
import { smallPiece } from './midiBytes.js';
import { read } from './reading.js';

const ROUNDS = 300;

/** Cut somewhere, bytes overwritten, a stretch left out or repeated: what disks, mails and bad writers do. */
function damaged(bytes: Uint8Array, random: Random): Uint8Array {
  const place = (): number => Math.floor(random() * bytes.length);
  const [a, b] = [place(), place()].sort((x, y) => x - y) as [number, number];
  switch (Math.floor(random() * 4)) {
    case 0: return bytes.slice(0, a);
    case 1: return Uint8Array.from([...bytes.slice(0, a), ...bytes.slice(b)]);
    case 2: return Uint8Array.from([...bytes.slice(0, b), ...bytes.slice(a)]);
    default: {
      const copy = bytes.slice();
      for (let i = 0; i < 1 + random() * 6; i += 1) copy[place()] = Math.floor(random() * 256);
      return copy;
    }
  }
}

/** What reading comes to: "read", or the code of the typed error. Anything else escapes and fails the test. */
function outcome(bytes: Uint8Array): string {
  try {
    const recording = read(bytes);
    for (const note of recording.notes) {
      expect(Number.isFinite(note.onsetS) && note.releaseS >= note.onsetS && note.releaseS <= recording.durationS).toBe(true);
      expect(note.velocity >= 1 && note.velocity <= 127 && note.pitch <= 127).toBe(true);
    }
    return 'read';
  } catch (error) {
    if (error instanceof InputError) return error.code;
    throw error;
  }
}

describe('damaged files', () => {
  it(`${ROUNDS} of them are read or refused with a typed error, and never hang`, () => {
    const random = seededRandom(20_240_607);
    const whole = smallPiece();
    const before = performance.now();
    const outcomes = Array.from({ length: ROUNDS }, () => outcome(damaged(whole, random)));
    expect(performance.now() - before).toBeLessThan(10_000);
    // both ends are reached, so the test does exercise reading and refusing
    expect(outcomes.filter((one) => one === 'read').length).toBeGreaterThan(ROUNDS / 4);
    expect(outcomes.filter((one) => one !== 'read').length).toBeGreaterThan(ROUNDS / 20);
  });

  it('a file cut at any byte gives no note that the whole file does not have', () => {
    const whole = smallPiece();
    const known = new Set(read(whole).notes.map((note) => note.pitch));
    for (let length = 0; length < whole.length; length += 1) {
      try {
        expect(read(whole.subarray(0, length)).notes.every((note) => known.has(note.pitch))).toBe(true);
      } catch (error) {
        expect(error).toBeInstanceOf(InputError);
      }
    }
  });
});
