import { describe, expect, it } from 'vitest';
import { MAX_RECORDING_BYTES } from '../../src/recording/index.js';
import { MAX_EVENTS, MAX_TRACKS } from '../../src/recording/cleanFile.js';
import { chunk, event, hex, midiFile, note, on, smallPiece, track, END_OF_TRACK } from './midiBytes.js';
import { expectInputError, kinds, notesOf, read, sentence } from './reading.js';

describe('what is no recording', () => {
  it('an empty file', () => expectInputError(new Uint8Array(), 'empty'));

  it.each([
    ['text renamed .mid', new TextEncoder().encode('Dear teacher, here is my piece.')],
    ['a JPEG', Uint8Array.from(hex('FF D8 FF E0 00 10 4A 46 49 46 00 01'))],
    ['a RIFF sound file', Uint8Array.from([...hex('52 49 46 46 24 00 00 00 57 41 56 45'), ...hex('64 61 74 61 00 00 00 00')])],
    ['a RIFF wrapper without data', Uint8Array.from(hex('52 49 46 46 24 00 00 00 52 4D 49 44'))],
    ['three bytes', Uint8Array.from(hex('4D 54 68'))],
  ])('%s', (_, bytes) => {
    expect(expectInputError(bytes, 'not-a-recording').message).toContain('not a MIDI file');
  });

  it('several hundred megabytes, before they are looked into', () => {
    const huge = new Uint8Array(300 * 1024 * 1024); // not touched: the pages of a fresh array cost nothing
    const before = performance.now();
    expectInputError(huge, 'too-large');
    expect(performance.now() - before).toBeLessThan(1_000); // looking into them all takes seconds
  });

  it('one byte too many, but not one less', () => {
    const padded = (length: number): Uint8Array => {
      const bytes = new Uint8Array(length);
      bytes.set(smallPiece());
      return bytes;
    };
    expectInputError(padded(MAX_RECORDING_BYTES + 1), 'too-large');
    expect(read(padded(MAX_RECORDING_BYTES)).notes).toHaveLength(12);
  });

  it('more events than anyone plays, and more tracks than there are ports', () => {
    const crowd = new Uint8Array(2 + 3 * (MAX_EVENTS + 1));
    crowd.set([0x00, 0x90], 0); // running status: delta, key, velocity over and over
    for (let i = 0; i <= MAX_EVENTS; i += 1) crowd.set([60, 64, 0], 2 + 3 * i);
    expectInputError(Uint8Array.from([...midiFile({}), ...chunk('MTrk', []).slice(0, 4), ...hex('00 2D C6 C5'), ...crowd]), 'too-large'); // 3000005 bytes
    expectInputError(midiFile({}, ...Array.from({ length: MAX_TRACKS + 1 }, () => track())), 'too-large');
  });
});

describe('headers', () => {
  const body = track(note(0, 60));

  it('too short', () => {
    expectInputError(Uint8Array.from(hex('4D 54 68 64 00 00 00 06 00 00')), 'not-well-formed');
    expectInputError(Uint8Array.from([...hex('4D 54 68 64 00 00 00 04 00 00 00 01'), ...body]), 'not-well-formed');
  });

  it('a format that does not exist', () => {
    expect(expectInputError(midiFile({ format: 3 }, body), 'unsupported').place.byte).toBe(8);
  });

  it.each([['no ticks a crotchet', 0], ['26 frames a second', 0xe628], ['no ticks a frame', 0xe700]])('%s', (_, division) => {
    expect(expectInputError(midiFile({ division }, body), 'bad-value').place.byte).toBe(12);
  });

  it('no track at all', () => {
    expect(expectInputError(midiFile({ promised: 65_535 }), 'not-well-formed').place.byte).toBe(14);
  });

  it('promising 65535 tracks and holding one: it is read, and said', () => {
    const recording = read(midiFile({ format: 1, promised: 65_535 }, body));
    expect(recording.notes).toHaveLength(1);
    expect(kinds(recording)).toContain('cut-file');
  });

  it('promising fewer tracks than there are: all are read', () => {
    expect(read(midiFile({ format: 1, promised: 1 }, body, track(note(0, 64)))).notes).toHaveLength(2);
  });
});

describe('files that break off', () => {
  it('inside an event: what stands before is kept, and said', () => {
    const whole = midiFile({}, track(note(0, 60, 480), note(0, 62, 480), note(0, 64, 480)));
    // the last 10 bytes: end of track (4), release of 64 (delta of two bytes + 3), one byte of its press
    const recording = read(whole.subarray(0, whole.length - 10));
    expect(notesOf(recording)).toEqual([[60, 0, 0.5], [62, 0.5, 1]]);
    expect(sentence(recording, 'cut-file')).toContain('ends 1.0 seconds');
  });

  it('between two events: a key that is down hangs', () => {
    const whole = midiFile({}, track(note(0, 60, 480), note(0, 62, 480)));
    const recording = read(whole.subarray(0, whole.length - 9)); // end of track (4), release of 62 (5)
    expect(recording.notes.map((one) => one.hanging)).toEqual([false, true]);
    expect(kinds(recording)).toEqual(expect.arrayContaining(['cut-file', 'hanging-notes']));
  });

  it('inside a later track: the earlier ones are whole', () => {
    const whole = midiFile({}, track(note(0, 60)), track(note(0, 72)));
    const recording = read(whole.subarray(0, whole.length - 12));
    expect(recording.notes.map((one) => one.pitch)).toEqual([60]);
    expect(kinds(recording)).toContain('cut-file');
  });

  it('before the first note', () => {
    expect(expectInputError(midiFile({}, track(note(0, 60))).subarray(0, 22), 'not-well-formed').message).toContain('before its first note');
  });

  it('a track that lacks only its end mark is whole', () => {
    expect(kinds(read(midiFile({}, chunk('MTrk', note(0, 60)))))).not.toContain('cut-file');
  });
});

describe('damaged tracks', () => {
  const good = track(note(0, 72, 480));

  it.each([
    ['a delta time of five bytes', 'FF FF FF FF 7F 90 40 40'],
    ['a data byte with its high bit set', '00 90 90 40'],
    ['a status that has no place in a file', '00 F8'],
    ['a text longer than the track', '00 FF 01 7F 41'],
    ['data without a status', '00 FF 01 00 00 40 40'],
  ])('%s: the track ends there, the others do not', (_, bytes) => {
    const recording = read(midiFile({}, chunk('MTrk', [...note(0, 60, 480), ...hex(bytes), ...END_OF_TRACK]), good));
    expect(recording.notes.map((one) => one.pitch)).toEqual([60, 72]);
    expect(kinds(recording)).toContain('cut-file');
  });

  it('ticks beyond what a file can count', () => {
    const far = event(0x0fffffff, 0x90, 61, 64);
    expect(read(midiFile({}, chunk('MTrk', [...note(0, 60), ...far]))).notes.map((one) => one.pitch)).toEqual([60]);
  });

  it('a length that was never filled in, or is too large: the end mark counts', () => {
    const events = [...note(0, 60, 480), ...END_OF_TRACK];
    expect(notesOf(read(midiFile({}, chunk('MTrk', events, 0), good)))).toEqual([[60, 0, 0.5], [72, 0, 0.5]]);
    expect(notesOf(read(midiFile({}, chunk('MTrk', events, events.length + 6), good)))).toEqual([[60, 0, 0.5], [72, 0, 0.5]]);
  });

  it('a length too large and a fault besides: reading goes on at the next track', () => {
    const events = [...note(0, 60, 480), ...hex('00 F8')];
    const recording = read(midiFile({}, chunk('MTrk', events, 1_000_000), good));
    expect(recording.notes.map((one) => one.pitch)).toEqual([60, 72]);
    expect(kinds(recording)).toContain('cut-file');
  });
});

it('presses and releases of a hundred thousand hanging keys take no more than a moment', () => {
  const crowd = Array.from({ length: 100_000 }, (_, i) => on(1, i % 128, 64)).flat();
  const before = process.cpuUsage();
  expect(read(midiFile({}, track(crowd))).notes).toHaveLength(100_000);
  expect(process.cpuUsage(before).user / 1000).toBeLessThan(5_000); // ms; minutes if it grew with the square
});
