import { describe, expect, it } from 'vitest';
import { control, midiFile, note, off, on, track } from './midiBytes.js';
import { kinds, notesOf, read, sentence } from './reading.js';

// MIDI 1.0 does not say how releases pair where a key is struck twice (from memory); these are the house's own rules.
// 480 ticks a crotchet at the default tempo: 480 ticks = 0.5 s.

describe('a key struck again without a release', () => {
  it('the new stroke ends the earlier note, and is said', () => {
    const recording = read(midiFile({}, track(on(0, 60), on(480, 60), off(480, 60))));
    expect(notesOf(recording)).toEqual([[60, 0, 0.5], [60, 0.5, 1]]);
    expect(recording.notes.map((one) => [one.releaseVelocity, one.hanging])).toEqual([[null, false], [40, false]]);
    expect(sentence(recording, 'doubled-notes')).toMatch(/^One key is struck again/);
  });

  it('a surplus release means nothing', () => {
    const recording = read(midiFile({}, track(on(0, 60), on(480, 60), off(240, 60), off(240, 60), note(480, 62))));
    expect(notesOf(recording)).toEqual([[60, 0, 0.5], [60, 0.5, 0.75], [62, 1.5, 1.75]]);
  });

  it('two strokes at one moment are one, the louder', () => {
    const recording = read(midiFile({}, track(on(0, 60, 40), on(0, 60, 70), off(480, 60), off(0, 60))));
    expect(notesOf(recording)).toEqual([[60, 0, 0.5]]);
    expect(recording.notes[0]!.velocity).toBe(70);
    expect(kinds(recording)).toContain('doubled-notes');
  });

  it('a release written after the new stroke of the same moment still ends the earlier note, and nothing is doubled', () => {
    const recording = read(midiFile({}, track(on(0, 60), on(480, 60), off(0, 60, 33), off(480, 60, 44))));
    expect(notesOf(recording)).toEqual([[60, 0, 0.5], [60, 0.5, 1]]);
    expect(recording.notes.map((one) => one.releaseVelocity)).toEqual([33, 44]);
    expect(kinds(recording)).not.toContain('doubled-notes');
  });
});

describe('one pitch on several channels and tracks', () => {
  it('overlapping notes keep their own releases', () => {
    // channel 0 from 0 to 1 s, channel 1 from 0.5 s to 1.5 s
    const recording = read(midiFile({}, track(on(0, 60, 64, 0), on(480, 60, 64, 1), off(480, 60, 40, 0), off(480, 60, 40, 1))));
    expect(notesOf(recording)).toEqual([[60, 0, 1], [60, 0.5, 1.5]]);
    expect(kinds(recording)).not.toContain('doubled-notes');
  });

  it('the same on two tracks that share a channel', () => {
    const recording = read(midiFile({}, track(note(0, 60, 960)), track(note(480, 60, 960))));
    expect(notesOf(recording)).toEqual([[60, 0, 1], [60, 0.5, 1.5]]);
  });
});

describe('notes that never end', () => {
  it('hang to the end of the file', () => {
    const recording = read(midiFile({}, track(on(0, 60), note(480, 62, 480))));
    expect(notesOf(recording)).toEqual([[60, 0, 1], [62, 0.5, 1]]);
    expect(recording.notes.map((one) => one.hanging)).toEqual([true, false]);
    expect(sentence(recording, 'hanging-notes')).toMatch(/^One note is never released/);
  });

  it.each([[123, 'all notes off'], [120, 'all sound off'], [124, 'omni off, which implies all notes off']])('MIDI 1.0: controller %i (%s) ends them, on its own channel only (V2)', (controller) => {
    const recording = read(midiFile({}, track(on(0, 60), on(0, 64, 64, 1), control(480, controller, 0), off(480, 60), off(0, 64, 40, 1))));
    expect(notesOf(recording)).toEqual([[60, 0, 0.5], [64, 0, 1]]);
    expect(recording.notes.map((one) => [one.hanging, one.releaseVelocity])).toEqual([[false, null], [false, 40]]);
  });

  it.each([121, 122])('controller %i ends no note', (controller) => {
    expect(notesOf(read(midiFile({}, track(on(0, 60), control(480, controller, 0), off(480, 60)))))).toEqual([[60, 0, 1]]);
  });
});

it('a note let go at the moment it was pressed has no length and does not hang', () => {
  const recording = read(midiFile({}, track(on(0, 60), off(0, 60), note(480, 62, 480))));
  expect(notesOf(recording)).toEqual([[60, 0, 0], [62, 0.5, 1]]);
  expect(recording.notes[0]!.hanging).toBe(false);
});

it('a release without a press means nothing', () => {
  expect(notesOf(read(midiFile({}, track(off(0, 60), note(480, 62, 480)))))).toEqual([[62, 0.5, 1]]);
});
