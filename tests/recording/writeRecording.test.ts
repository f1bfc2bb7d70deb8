import tonejs from '@tonejs/midi';
import { describe, expect, it } from 'vitest';
import { readRecording, recordingBytes } from '../../src/recording/index.js';

const NOTES = [
  { onsetS: 0.5, releaseS: 1, pitch: 60, velocity: 64, releaseVelocity: 40 },
  { onsetS: 1.0005, releaseS: 1.0006, pitch: 64, velocity: 100, releaseVelocity: null },
];
const WORDS = { name: 'made' };

describe('a recording as a file', () => {
  it('is read back by an independent library at the same moments', () => {
    const { tracks } = new tonejs.Midi(recordingBytes({ notes: NOTES, sustain: [{ timeS: 0.75, value: 127 }] }, WORDS));
    const [first, second] = tracks[0]!.notes;
    expect([first!.midi, first!.time, first!.duration]).toEqual([60, 0.5, 0.5]);
    // velocities are shares of 127 there
    expect([second!.midi, second!.time, second!.velocity]).toEqual([64, 1.0005, 100 / 127]);
    expect(tracks[0]!.controlChanges[64]!.map(({ time, value }) => [time, value])).toEqual([[0.75, 1]]);
  });

  it('keeps all three pedals, releases and the end', () => {
    const point = { timeS: 0.25, value: 90 };
    const read = readRecording(recordingBytes({ notes: NOTES, sustain: [point], sostenuto: [point], soft: [point], durationS: 3 }, WORDS), { fileName: 'made.mid' });
    expect([read.sustain, read.sostenuto, read.soft]).toEqual([[point], [point], [point]]);
    expect(read.notes.map(({ releaseVelocity }) => releaseVelocity)).toEqual([40, null]);
    expect(read.durationS).toBe(3);
    // shorter than the grid: one tick, half a millisecond
    expect(read.notes[1]!.releaseS - read.notes[1]!.onsetS).toBeCloseTo(0.0005, 9);
  });

  it('refuses a moment before its start', () => {
    expect(() => recordingBytes({ notes: [{ ...NOTES[0]!, onsetS: -1 }], sustain: [] }, WORDS)).toThrow(RangeError);
    expect(() => recordingBytes({ notes: [], sustain: [{ timeS: NaN, value: 0 }] }, WORDS)).toThrow(RangeError);
  });
});
