import { describe, expect, it } from 'vitest';
import type { Recording } from '../../src/recording/index.js';
import { playbackOf } from '../../src/sound/index.js';

const recording = (changed: Partial<Recording>): Recording => ({
  notes: [{ index: 0, onsetS: 1, releaseS: 1.5, pitch: 60, velocity: 127, releaseVelocity: null, hanging: false }, { index: 1, onsetS: 2.2, releaseS: 2.4, pitch: 64, velocity: 64, releaseVelocity: null, hanging: false }],
  sustain: [], sostenuto: [], soft: [], durationS: 4, limits: [], ...changed,
});

describe('a recording made ready for sounding', () => {
  it('has the hardest stroke at 0 dB and half of it at 10.4 dB less', () => {
    // Dannenberg 2006 with 40 dB, as for the measures: 40 log10(0.5500) = -10.386
    expect(playbackOf(recording({})).keys.map(({ levelDb }) => Number(levelDb.toFixed(2)))).toEqual([0, -10.39]);
  });

  it('lets a key that the sostenuto pedal caught ring until that is up, and no other', () => {
    // pressed while the first key is down (MIDI 1.0: it holds only keys that are down); the second comes later
    expect(playbackOf(recording({ sostenuto: [{ timeS: 1.2, value: 127 }, { timeS: 3, value: 0 }] })).keys.map(({ releaseS }) => releaseS)).toEqual([3, 2.4]);
    expect(playbackOf(recording({ sostenuto: [{ timeS: 0.5, value: 127 }, { timeS: 3, value: 0 }] })).keys.map(({ releaseS }) => releaseS)).toEqual([1.5, 2.4]);
  });

  it('tells the dampers in steps between half and whole, from the beginning on', () => {
    // 32 lies on the strings still, 48 is half way, 64 clear (own rule of the measures, 64 by MIDI 1.0)
    const { dampers } = playbackOf(recording({ sustain: [{ timeS: 1, value: 48 }, { timeS: 2, value: 127 }, { timeS: 3, value: 10 }] }));
    expect(dampers).toEqual([{ timeS: 0, contact: 1 }, { timeS: 1, contact: 0.5 }, { timeS: 2, contact: 0 }, { timeS: 3, contact: 1 }]);
  });

  it('has the soft pedal as it stood at the stroke', () => {
    expect(playbackOf(recording({ soft: [{ timeS: 2, value: 127 }] })).keys.map(({ soft }) => soft)).toEqual([0, 1]);
  });
});
