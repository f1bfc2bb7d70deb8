import tonejs from '@tonejs/midi';
import { describe, expect, it } from 'vitest';
import { messagesBytes } from '../../src/recording/index.js';

describe('what a keyboard sent as a file', () => {
  it('holds every note and pedal at its moment, as an independent library reads it', () => {
    const bytes = messagesBytes([
      { timeS: 0.25, status: 0xb0, first: 64, second: 127 },
      { timeS: 0.1, status: 0x90, first: 60, second: 64 },
      { timeS: 0.6, status: 0x80, first: 60, second: 30 },
      { timeS: 0.3, status: 0x90, first: 67, second: 90 },
      // a note-on of velocity 0 is a note-off (MIDI 1.0)
      { timeS: 0.9, status: 0x90, first: 67, second: 0 },
      // pitch bend is not kept
      { timeS: 0.95, status: 0xe0, first: 0, second: 64 },
    ], { name: 'take' });
    const [track] = new tonejs.Midi(bytes).tracks;
    expect(track!.notes.map(({ midi, time, duration }) => [midi, time, Number(duration.toFixed(4))])).toEqual([[60, 0.1, 0.5], [67, 0.3, 0.6]]);
    expect(track!.controlChanges[64]!.map(({ time, value }) => [time, value])).toEqual([[0.25, 1]]);
    expect(track!.pitchBends).toEqual([]);
  });

  it('is the same file when it is made again', () => {
    const messages = [{ timeS: 0, status: 0x90, first: 60, second: 64 }, { timeS: 0, status: 0x80, first: 60, second: 0 }];
    expect(messagesBytes(messages, { name: 'a' })).toEqual(messagesBytes(messages, { name: 'a' }));
  });

  it('refuses a moment before the start', () => expect(() => messagesBytes([{ timeS: -0.1, status: 0x90, first: 60, second: 64 }], { name: 'a' })).toThrow(RangeError));
});
