import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import tonejs from '@tonejs/midi';
import { parseMidi } from 'midi-file';
import { describe, expect, it } from 'vitest';
import type { Recording } from '../../src/recording/index.js';
import { control, midiFile, note, smallPiece, tempo, track } from './midiBytes.js';
import { read } from './reading.js';

// Two libraries read the same file: events come from midi-file by way of this reader, and @tonejs/midi reads the untouched
// bytes by itself, pairing and timing notes in its own way. What they agree on, neither has made up.

/** Farthest apart that one event may stand in the two, seconds: rounding only. */
const SAME_MOMENT_S = 1e-6;

type Fact = readonly [number, number, number];

const byTime = (a: Fact, b: Fact): number => a[0] - b[0] || a[1] - b[1] || a[2] - b[2];

/** Onset, pitch, velocity by @tonejs/midi. */
function tonejsNotes(bytes: Uint8Array): Fact[] {
  return new tonejs.Midi(bytes).tracks.flatMap((one) => one.notes.map((n): Fact => [n.time, n.midi, Math.round(n.velocity * 127)])).sort(byTime);
}

/** Time, 64, value by @tonejs/midi: the sustain pedal on the tracks that it keeps. */
function tonejsPedal(bytes: Uint8Array): Fact[] {
  return new tonejs.Midi(bytes).tracks.flatMap((one) => (one.controlChanges[64] ?? []).map((c): Fact => [c.time, 64, Math.round(c.value * 127)])).sort(byTime);
}

/** How often midi-file alone finds CC64 in the untouched bytes. */
function midiFilePedal(bytes: Uint8Array): number {
  return parseMidi(bytes).tracks.flat().filter((one) => one.type === 'controller' && one.controllerType === 64).length;
}

function expectSame(ours: readonly Fact[], theirs: readonly Fact[]): void {
  expect(ours).toHaveLength(theirs.length);
  ours.forEach((fact, i) => {
    expect(fact.slice(1)).toEqual(theirs[i]!.slice(1));
    expect(Math.abs(fact[0] - theirs[i]![0])).toBeLessThan(SAME_MOMENT_S);
  });
}

const notesOf = (recording: Recording): Fact[] => recording.notes.map((n): Fact => [n.onsetS, n.pitch, n.velocity]).sort(byTime);
const pedalOf = (recording: Recording): Fact[] => recording.sustain.map((p): Fact => [p.timeS, 64, p.value]).sort(byTime);

const files: readonly (readonly [string, Uint8Array])[] = [
  ['a little piece with a tempo track and its pedal on a track of its own', smallPiece()],
  ['format 0 with tempo changes between the notes', midiFile({ division: 96 }, track(tempo(0, 700_000), note(0, 60, 48), tempo(0, 444_444), note(3, 62, 48), tempo(7, 1_234_567), note(0, 64, 48), control(1, 64, 70)))],
  ['format 1 with two channels on a track', midiFile({}, track(note(0, 60, 240, { velocity: 51, channel: 0 }), note(0, 48, 240, { velocity: 52, channel: 1 }), note(10, 61, 240, { velocity: 53, channel: 0 })), track(note(5, 36, 100, { velocity: 54, channel: 2 })))],
  ['written by the other library', writtenByTonejs()],
];

/** A file whose bytes this project has no hand in. */
function writtenByTonejs(): Uint8Array {
  const midi = new tonejs.Midi();
  midi.header.setTempo(84);
  const piano = midi.addTrack();
  for (let i = 0; i < 60; i += 1) piano.addNote({ midi: 40 + ((i * 7) % 41), ticks: i * 130, durationTicks: 100 + i, velocity: (30 + i) / 127 });
  for (let i = 0; i < 20; i += 1) piano.addCC({ number: 64, ticks: i * 377, value: ((i * 31) % 128) / 127 });
  return midi.toArray();
}

describe.each(files)('%s', (_, bytes) => {
  it('has the same notes in both libraries', () => expectSame(notesOf(read(bytes)), tonejsNotes(bytes)));
  it('has every pedal value that midi-file finds', () => expect(read(bytes).sustain).toHaveLength(midiFilePedal(bytes)));
});

it('pedal values and times agree where both libraries keep the track', () => {
  const bytes = writtenByTonejs();
  expect(tonejsPedal(bytes)).toHaveLength(20);
  expectSame(pedalOf(read(bytes)), tonejsPedal(bytes));
});

it('the trap: @tonejs/midi drops a first track without notes, pedal and all; this reader does not', () => {
  const bytes = midiFile({}, track(control(0, 64, 0), control(480, 64, 100)), track(note(0, 60, 480)));
  expect(tonejsPedal(bytes)).toEqual([]);
  expect(read(bytes).sustain).toEqual([{ timeS: 0, value: 0 }, { timeS: 0.5, value: 100 }]);
});

it('the other trap: before a late first tempo change @tonejs/midi leaps; this reader keeps the default tempo till then', () => {
  const bytes = midiFile({}, track(tempo(480, 1_000_000)), track(note(479, 60, 1), note(0, 62, 480)));
  // ticks 479 and 480 at 120 a minute: 0.49896 and 0.5 s; that library has the second at 1 s
  expect(tonejsNotes(bytes)[1]![0]).toBe(1);
  expect(read(bytes).notes[1]!.onsetS).toBeCloseTo(0.5, 9);
});

const corpus = process.env['BARWISE_CORPUS'] ?? '';
const present = corpus !== '' && existsSync(corpus);
if (!present) console.info('left out: libraries against each other on real recordings, because BARWISE_CORPUS names no folder');

function recordingsBelow(folder: string): string[] {
  return readdirSync(folder).sort().map((name) => join(folder, name)).flatMap((path) => statSync(path).isDirectory() ? recordingsBelow(path) : path.endsWith('.mid') ? [path] : []);
}

describe.skipIf(!present)('real recordings (left out unless BARWISE_CORPUS names a folder with some)', () => {
  const paths = present ? recordingsBelow(corpus) : [];

  it('there are some', () => expect(paths.length).toBeGreaterThan(0));

  it.each(paths)('%s', (path) => {
    const bytes = new Uint8Array(readFileSync(path));
    const recording = read(bytes);
    expectSame(notesOf(recording), tonejsNotes(bytes));
    expect(recording.sustain.length).toBe(midiFilePedal(bytes));
  });
});
