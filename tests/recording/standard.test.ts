import { describe, expect, it } from 'vitest';
import { chunk, control, event, hex, midiFile, note, off, on, tempo, track, END_OF_TRACK } from './midiBytes.js';
import { kinds, notesOf, read, round } from './reading.js';

/** When a note at this tick begins, after the given events. */
function onsetAt(ticks: number, division: number, ...before: number[][]): number {
  return round(read(midiFile({ division }, track(...before, note(ticks, 60, 10)))).notes[0]!.onsetS);
}

describe('time', () => {
  it('Standard MIDI File 1.1: bit 15 clear, division 96: a quaver is 48 ticks (V2)', () => {
    // at the default 120 crotchets a minute a quaver lasts 0.25 s
    expect(onsetAt(48, 96)).toBe(0.25);
  });

  it('Standard MIDI File 1.1: without a tempo event 500000 microseconds a crotchet (V2)', () => {
    expect(onsetAt(480, 480)).toBe(0.5);
  });

  it.each([
    ['07 A1 20', 0.5], ['09 27 C0', 0.6], ['0A 2C 2B', 0.6667], ['0F 42 40', 1], // 120, 100, 90, 60 a minute
    ['04 7C E5', 0.2941], ['06 BB 57', 0.4412], // a worked file: 294117 and 441175 microseconds (204 and 136 a minute)
  ])('Standard MIDI File 1.1: tempo FF 51 03 %s makes a crotchet %d s (V2)', (bytes, seconds) => {
    expect(onsetAt(480, 480, event(0, ...hex(`FF 51 03 ${bytes}`)))).toBe(seconds);
  });

  it('the default tempo counts up to a first tempo change that comes later', () => {
    // a crotchet at 120 (0.5 s), then one at 60 (1 s)
    expect(onsetAt(480, 480, tempo(480, 1_000_000))).toBe(1.5);
  });

  it('follows a tempo map on a track of its own', () => {
    // crotchets of 1 s, 0.5 s, 0.25 s: a note on each, and one in the middle of the last
    const bytes = midiFile({}, track(tempo(0, 1_000_000), tempo(480, 500_000), tempo(480, 250_000)), track(note(0, 60, 480), note(0, 62, 480), note(0, 64, 240), note(0, 65, 240)));
    expect(notesOf(read(bytes))).toEqual([[60, 0, 1], [62, 1, 1.5], [64, 1.5, 1.625], [65, 1.625, 1.75]]);
  });

  it('of two tempos at one tick the last counts; tempo 0 is no tempo', () => {
    expect(onsetAt(480, 480, tempo(0, 300_000), tempo(0, 1_000_000), tempo(0, 0))).toBe(1);
  });

  it('SMPTE division E7 28: 25 frames of 40 ticks make 1000 ticks a second, whatever the tempo (value from memory)', () => {
    expect(onsetAt(1234, 0xe728, tempo(0, 1_000_000))).toBe(1.234);
  });

  it.each([
    [0xe850, 24 * 80], [0xe750, 25 * 80], [0xe250, 30 * 80], [0xe350, (30_000 / 1001) * 80], // E8h = -24 ... E3h = -29: 30 drop-frame
  ])('Standard MIDI File 1.1: division %i counts frames (V2)', (division, ticksPerSecond) => {
    expect(onsetAt(48_000, division)).toBe(round(48_000 / ticksPerSecond));
  });

  it('ends with its last event, the end of the track counted', () => {
    const bytes = midiFile({}, chunk('MTrk', [...note(0, 60, 480), ...event(480, 0xff, 0x2f, 0)]));
    expect(read(bytes).durationS).toBe(1);
  });
});

describe('formats', () => {
  const first = track(note(0, 60, 480));
  const second = track(tempo(0, 1_000_000), note(0, 67, 480));

  it('format 1: tracks sound together', () => {
    expect(notesOf(read(midiFile({ format: 1 }, first, second)))).toEqual([[60, 0, 1], [67, 0, 1]]);
  });

  it('format 2: tracks follow one another, each at its own tempo', () => {
    expect(notesOf(read(midiFile({ format: 2 }, first, second)))).toEqual([[60, 0, 0.5], [67, 0.5, 1.5]]);
  });

  it('format 0 with more tracks than one is read like format 1', () => {
    expect(notesOf(read(midiFile({ format: 0 }, first, second))).map(([pitch]) => pitch)).toEqual([60, 67]);
  });

  it('orders notes by onset, then pitch, and numbers them', () => {
    const recording = read(midiFile({}, track(note(0, 72, 480)), track(note(0, 48, 480)), track(note(240, 60, 10))));
    expect(recording.notes.map((one) => [one.index, one.pitch])).toEqual([[0, 48], [1, 72], [2, 60]]);
  });
});

describe('running status', () => {
  it('Standard MIDI File 1.1: 90 3C 7F 3F 7F 42 7F are three presses (V2)', () => {
    const bytes = midiFile({}, chunk('MTrk', [...hex('00 90 3C 7F 00 3F 7F 00 42 7F 60 3C 00 00 3F 00 00 42 00'), ...END_OF_TRACK]));
    expect(read(bytes).notes.map((one) => [one.pitch, one.velocity])).toEqual([[60, 127], [63, 127], [66, 127]]);
  });

  it.each([['a text', 'FF 01 01 41'], ['a system exclusive message', 'F0 02 7E F7']])('is cancelled by %s, so that what follows is no event (V2)', (_, bytes) => {
    const broken = midiFile({}, chunk('MTrk', [...hex(`00 90 3C 7F 00 ${bytes} 00 3F 7F`), ...END_OF_TRACK]));
    const recording = read(broken);
    expect(recording.notes.map((one) => one.pitch)).toEqual([60]);
    expect(kinds(recording)).toContain('cut-file');
  });

  it('goes on after such an event with a status of its own', () => {
    const bytes = midiFile({}, chunk('MTrk', [...hex('00 90 3C 7F 00 FF 01 01 41 00 90 3F 7F 60 3C 00 00 3F 00'), ...END_OF_TRACK]));
    expect(read(bytes).notes.map((one) => one.pitch)).toEqual([60, 63]);
    expect(kinds(read(bytes))).not.toContain('cut-file');
  });
});

describe('what is stepped over', () => {
  it.each([
    ['time signature 4/4', 'FF 58 04 04 02 18 08'], ['time signature 6/8', 'FF 58 04 06 03 18 08'], // Standard MIDI File 1.1 (V2)
    ['key signature C major', 'FF 59 02 00 00'], ['key signature C minor', 'FF 59 02 FD 01'], // (V2)
    ['an unknown meta event', 'FF 60 02 01 02'], ['a key signature of the wrong length', 'FF 59 01 00'], ['an escape', 'F7 02 F3 01'],
    ['polyphonic pressure', 'A0 3C 40'], ['channel pressure', 'D0 40'], ['pitch bend', 'E0 00 40'], ['hold 2', 'B0 45 7F'],
  ])('%s leaves notes and times alone', (_, bytes) => {
    const recording = read(midiFile({}, track(event(480, ...hex(bytes)), note(480, 60, 480))));
    expect(notesOf(recording)).toEqual([[60, 1, 1.5]]);
    expect(recording.sustain).toEqual([]);
    expect(kinds(recording)).not.toContain('cut-file');
  });

  it('a text far longer than a library can take in one call', () => {
    const text = Array.from({ length: 300_000 }, () => 0x41);
    const bytes = midiFile({}, track([...hex('00 FF 01 92 A7 60'), ...text], note(0, 60))); // 300000 = 12h * 16384 + 27h * 128 + 60h
    expect(read(bytes).notes).toHaveLength(1);
  });

  it('chunks of other kinds, junk after the last track, a longer header', () => {
    const plain = [...midiFile({}, chunk('XFIH', [1, 2, 3]), track(note(0, 60, 480)))];
    const header = [...hex('4D 54 68 64 00 00 00 08 00 00 00 01 01 E0 AA BB'), ...track(note(0, 60, 480))];
    expect(notesOf(read(Uint8Array.from([...plain, 1, 2, 3, 250])))).toEqual([[60, 0, 0.5]]);
    expect(notesOf(read(Uint8Array.from(header)))).toEqual([[60, 0, 0.5]]);
    expect(kinds(read(Uint8Array.from(header)))).not.toContain('cut-file');
  });

  it('a RIFF wrapper', () => {
    const inner = [...midiFile({}, track(note(0, 60, 480)))];
    // lengths are little-endian here; an odd chunk ("DISP", 3 bytes) is padded to even length
    const wrapped = [...hex('52 49 46 46 00 00 00 00 52 4D 49 44'), ...hex('44 49 53 50 03 00 00 00 01 02 03 00'), ...hex('64 61 74 61'), inner.length, 0, 0, 0, ...inner];
    expect(notesOf(read(Uint8Array.from(wrapped)))).toEqual([[60, 0, 0.5]]);
  });
});

describe('pitches and velocities', () => {
  it('keeps the whole keyboard: 21 to 108 (88 keys, common practice, no source), 60 is middle C (MIDI 1.0, V2)', () => {
    const recording = read(midiFile({}, track(note(0, 21), note(0, 60), note(0, 108))));
    expect(recording.notes.map((one) => one.pitch)).toEqual([21, 60, 108]);
  });

  it('MIDI 1.0: a note-on of velocity 0 is a note-off (V2), and gives no release velocity', () => {
    const recording = read(midiFile({}, track(on(0, 60, 64), on(480, 60, 0), on(0, 62, 64), off(480, 62, 77))));
    expect(notesOf(recording)).toEqual([[60, 0, 0.5], [62, 0.5, 1]]);
    expect(recording.notes.map((one) => one.releaseVelocity)).toEqual([null, 77]);
  });

  it('MIDI 1.0: CC64 63 is up and 64 is down (V2); both stay as sent, the curve is continuous', () => {
    const recording = read(midiFile({}, track(note(0, 60), control(0, 64, 63), control(480, 64, 64), control(480, 64, 127))));
    expect(recording.sustain.map((point) => [round(point.timeS), point.value])).toEqual([[0.25, 63], [0.75, 64], [1.25, 127]]);
  });
});
