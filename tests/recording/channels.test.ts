import { describe, expect, it } from 'vitest';
import { control, midiFile, note, program, track } from './midiBytes.js';
import { expectInputError, kinds, notesOf, read, sentence } from './reading.js';

const STRINGS = 48; // General MIDI programme 49, counted from 0
const BRIGHT_PIANO = 1;

/** Eight quavers going up from a pitch. */
function run(from: number, channel: number, shift = 0): number[] {
  return Array.from({ length: 8 }, (_, i) => note(i === 0 ? shift : 0, from + i, 240, { velocity: 50 + i, channel })).flat();
}

describe('which channels are the piano', () => {
  it('both hands on channels of their own', () => {
    const recording = read(midiFile({}, track(run(60, 0)), track(run(40, 1))));
    expect(recording.notes).toHaveLength(16);
    expect(kinds(recording)).not.toContain('accompaniment');
  });

  it('the drum channel is left out and said', () => {
    const recording = read(midiFile({}, track(run(60, 0)), track(run(35, 9))));
    expect(recording.notes.map((one) => one.pitch)).toEqual([60, 61, 62, 63, 64, 65, 66, 67]);
    expect(sentence(recording, 'drums')).toContain('channel 10');
  });

  it('drums alone are no recording of a piano', () => {
    expect(expectInputError(midiFile({}, track(run(35, 9))), 'no-notes').message).toContain('drums');
  });

  it('channels with other programmes are an accompaniment, said by the numbers players use', () => {
    const recording = read(midiFile({}, track(program(0, BRIGHT_PIANO), run(60, 0)), track(program(0, STRINGS, 3), run(40, 3)), track(program(0, 33, 4), run(30, 4))));
    expect(recording.notes.map((one) => one.pitch)).toEqual([60, 61, 62, 63, 64, 65, 66, 67]);
    expect(sentence(recording, 'accompaniment')).toContain('channels 4, 5');
  });

  it('a programme change after the notes does not move them', () => {
    const recording = read(midiFile({}, track(run(60, 0), program(0, STRINGS)), track(run(40, 1))));
    expect(recording.notes).toHaveLength(16);
  });

  it('a pupil who plays with another sound is kept; a stray note on the piano channel is not what was played', () => {
    const strings = Array.from({ length: 16 }, (_, i) => note(0, 60 + i, 240, { velocity: 64, channel: 2 })).flat();
    const recording = read(midiFile({}, track(program(0, STRINGS, 2), strings), track(note(480, 30))));
    expect(recording.notes.map((one) => one.pitch)).not.toContain(30);
    expect(recording.notes).toHaveLength(16);
    expect(kinds(recording)).toContain('accompaniment');
  });

  it('exactly a tenth of the notes is enough for the piano channels', () => {
    const nine = Array.from({ length: 9 }, (_, i) => note(0, 60 + i, 240, { velocity: 64, channel: 2 })).flat();
    const recording = read(midiFile({}, track(program(0, STRINGS, 2), nine), track(note(480, 30))));
    expect(recording.notes.map((one) => one.pitch)).toEqual([30]);
  });
});

describe('layered sounds', () => {
  it('a second sound on the same keys is merged and said', () => {
    // the layer sends 4 ticks = 4.2 ms later: within the 5 ms of one key press
    const recording = read(midiFile({}, track(run(60, 0)), track(program(0, STRINGS, 1), run(60, 1, 4))));
    expect(recording.notes).toHaveLength(8);
    expect(sentence(recording, 'doubled-notes')).toContain('layered');
    expect(kinds(recording)).not.toContain('accompaniment');
  });

  it('two piano sounds on the same keys are merged, as loud as the louder', () => {
    const recording = read(midiFile({}, track(note(0, 60, 480, { velocity: 50, channel: 0 })), track(program(0, BRIGHT_PIANO, 1), note(0, 60, 960, { velocity: 70, channel: 1 }))));
    expect(notesOf(recording)).toEqual([[60, 0, 1]]);
    expect(recording.notes[0]!.velocity).toBe(70);
    expect(kinds(recording)).toContain('doubled-notes');
  });

  it('strokes of one key more than 5 ms apart are two', () => {
    // 5 ticks = 5.2 ms
    expect(read(midiFile({}, track(note(0, 60, 480, { velocity: 50, channel: 0 })), track(note(5, 60, 480, { velocity: 50, channel: 1 })))).notes).toHaveLength(2);
  });

  it('within one channel two strokes are two, however close', () => {
    // let go after 2 ticks and struck again 2 ticks later: 4 ms
    expect(read(midiFile({}, track(note(0, 60, 2), note(2, 60, 480)))).notes).toHaveLength(2);
  });

  it('strokes exactly 5 ms apart are one', () => {
    // 1000 ticks a second (25 frames of 40): 5 ticks = 5 ms
    expect(read(midiFile({ division: 0xe728 }, track(note(0, 60, 480, { velocity: 50, channel: 0 })), track(note(5, 60, 480, { velocity: 50, channel: 1 })))).notes).toHaveLength(1);
  });
});

describe('pedals', () => {
  it('on a first track without notes, and on a channel of their own', () => {
    const recording = read(midiFile({}, track(control(0, 64, 127, 5), control(0, 67, 90, 5), control(480, 66, 100, 5)), track(note(0, 60))));
    expect(recording.sustain).toEqual([{ timeS: 0, value: 127 }]);
    expect(recording.soft).toEqual([{ timeS: 0, value: 90 }]);
    expect(recording.sostenuto).toEqual([{ timeS: 0.5, value: 100 }]);
  });

  it('of drums, accompaniment and layers are theirs', () => {
    const layer = track(program(0, STRINGS, 1), control(0, 64, 99, 1), run(60, 1));
    expect(read(midiFile({}, track(control(0, 64, 44), run(60, 0)), layer)).sustain).toEqual([{ timeS: 0, value: 44 }]);
  });

  it('MIDI 1.0: controller 121 lifts all that are down (V2)', () => {
    const recording = read(midiFile({}, track(control(0, 64, 127), control(0, 67, 127), control(480, 121, 0), control(480, 121, 0), note(0, 60))));
    expect(recording.sustain).toEqual([{ timeS: 0, value: 127 }, { timeS: 0.5, value: 0 }]);
    expect(recording.soft).toEqual([{ timeS: 0, value: 127 }, { timeS: 0.5, value: 0 }]);
    expect(recording.sostenuto).toEqual([]);
  });
});
