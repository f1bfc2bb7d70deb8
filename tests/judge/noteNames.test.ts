import { describe, expect, it } from 'vitest';
import { alterInKey, namePlayed, noteInWords } from '../../src/judge/index.js';
import type { Pitch, Step } from '../../src/score/index.js';

/** A written pitch by its spelling; MIDI numbers by hand from middle C = 60. */
const pitch = (step: Step, alter: number, midi: number): Pitch => ({ step, alter, octave: 4, midi });

describe('the name of a key that was pressed', () => {
  it('keeps the written letter where one accidental explains it', () => {
    // G4 = 67 for written G sharp 4 = 68; E flat 63 for E 64; C sharp 61 for C 60
    expect(namePlayed(67, pitch('G', 1, 68), 2)).toEqual({ step: 'G', alter: 0 });
    expect(namePlayed(63, pitch('E', 0, 64), 0)).toEqual({ step: 'E', alter: -1 });
    expect(namePlayed(61, pitch('C', 0, 60), -3)).toEqual({ step: 'C', alter: 1 });
  });

  it('calls no white key by a sharp or flat: F for E, not E sharp', () => {
    expect(namePlayed(65, pitch('E', 0, 64), 0)).toEqual({ step: 'F', alter: 0 });
    expect(namePlayed(59, pitch('C', 0, 60), 0)).toEqual({ step: 'B', alter: 0 });
  });

  it.each([
    // [MIDI, fifths, name] common spelling of chromatic notes: C major takes B flat, E flat, A flat but F sharp, C sharp
    [70, 0, 'B flat'], [63, 0, 'E flat'], [68, 0, 'A flat'], [66, 0, 'F sharp'], [61, 0, 'C sharp'],
    // A flat major has D flat, E major has G sharp and D sharp, F sharp major has E sharp
    [61, -4, 'D flat'], [68, 4, 'G sharp'], [63, 4, 'D sharp'], [65, 6, 'E sharp'], [59, -6, 'C flat'],
  ])('follows the key signature: %i with %i fifths is %s', (midi, fifths, name) => {
    expect(noteInWords(namePlayed(midi, null, fifths))).toBe(name);
  });

  it('spells the leading note of a minor key as its sharp', () => {
    // A minor: G sharp and D sharp, but B flat; C minor: B natural and F sharp, but D flat
    const inMinor = (midi: number, fifths: number): string => noteInWords(namePlayed(midi, null, { fifths, mode: 'minor' }));
    expect([68, 63, 70].map((midi) => inMinor(midi, 0))).toEqual(['G sharp', 'D sharp', 'B flat']);
    expect([71, 66, 61].map((midi) => inMinor(midi, -3))).toEqual(['B', 'F sharp', 'D flat']);
  });
});

describe('a key signature', () => {
  it('alters its own steps', () => {
    // D major: F and C sharp; E flat major: B, E and A flat
    expect((['F', 'C', 'G'] as const).map((step) => alterInKey(step, 2))).toEqual([1, 1, 0]);
    expect((['B', 'E', 'A', 'D'] as const).map((step) => alterInKey(step, -3))).toEqual([-1, -1, -1, 0]);
    expect(alterInKey('F', 0)).toBe(0);
  });
});
