import { describe, expect, it } from 'vitest';
import { readRecording, recordingBytes, type RecordedNote } from '../../src/recording/index.js';
import { clockOf, isVersionName, makeVersion, VERSION_NAMES, versionInWords, type SoundInput, type Version, type VersionName } from '../../src/sound/index.js';
import { corpusInput, corpusPairs, demoInput, demoNames, faultless, heardAgain } from './material.js';

/** A note of a version beside the one it comes from. */
interface Twin {
  readonly was: RecordedNote;
  readonly is: RecordedNote;
}

function twins(input: SoundInput, { recording, from }: Version): readonly Twin[] {
  return recording.notes.flatMap((is, i) => (typeof from[i] === 'number' ? [{ was: input.recording.notes[from[i]]!, is }] : []));
}

/** Fields of a note that a version may change; everything else must be the same. */
const MAY_CHANGE: Readonly<Record<Exclude<VersionName, 'printed'>, readonly (keyof RecordedNote)[]>> = {
  pedal: [], pulse: ['onsetS', 'releaseS', 'index'], lengths: ['releaseS', 'index'], balance: ['velocity'], dynamics: ['velocity'], notes: ['pitch', 'releaseS', 'index'],
};

function changedFields(input: SoundInput, version: Version): ReadonlySet<string> {
  const fields = ['index', 'onsetS', 'releaseS', 'pitch', 'velocity', 'releaseVelocity', 'hanging'] as const;
  return new Set(twins(input, version).flatMap(({ was, is }) => fields.filter((field) => was[field] !== is[field])));
}

/** Only the named thing changes: every field of every note, every pedal point. */
function onlyTheNamedThing(input: SoundInput): void {
  for (const name of VERSION_NAMES) {
    if (name === 'printed') continue;
    const version = makeVersion(name, input);
    const { recording } = version;
    for (const field of changedFields(input, version)) expect(MAY_CHANGE[name], `${name}: ${field}`).toContain(field);
    if (name !== 'pulse') {
      expect([recording.sostenuto, recording.soft], name).toEqual([input.recording.sostenuto, input.recording.soft]);
      expect(version.clock).toEqual([]);
      if (name !== 'pedal' && name !== 'lengths') expect(recording.sustain, name).toEqual(input.recording.sustain);
    }
    if (name !== 'notes' && name !== 'lengths') expect(version.from, name).toEqual(input.recording.notes.map(({ index }) => index));
    // nothing to change: the same recording to the last byte
    if (version.changes.length === 0 && name !== 'pulse') expect(recordingBytes(recording, { name: 'a' }), name).toEqual(recordingBytes(input.recording, { name: 'a' }));
    wellFormed(version);
  }
}

/** A recording as all stages expect it: in order, numbered, every note with a length, the end at the end. */
function wellFormed({ recording: { notes, sustain, durationS } }: Version): void {
  notes.forEach((note, i) => {
    expect(note.index).toBe(i);
    expect(note.releaseS).toBeGreaterThanOrEqual(note.onsetS);
    expect(durationS).toBeGreaterThanOrEqual(note.releaseS);
    if (i > 0) expect(note.onsetS).toBeGreaterThanOrEqual(notes[i - 1]!.onsetS);
  });
  sustain.forEach(({ timeS }, i) => expect(timeS).toBeGreaterThanOrEqual(sustain[i - 1]?.timeS ?? 0));
}

describe.each(demoNames())('%s as it could be', (demo) => {
  const input = demoInput(demo);

  it('has only the named thing changed', () => onlyTheNamedThing(input));

  it('leaves nothing of what it mends to be said of the pedal, the lengths, the notes', () => {
    for (const aspect of ['pedal', 'lengths', 'notes'] as const) {
      const { recording } = makeVersion(aspect, input);
      const left = heardAgain(input, recording).observations.filter((one) => one.aspect === aspect);
      expect(left.map(({ text }) => text), aspect).toEqual([]);
    }
  });

  it('waits nowhere with an even pulse unless something written lets it', () => {
    const { pulse } = heardAgain(input, makeVersion('pulse', input).recording).measures;
    // an eighth of a beat is half of the least that is told as a wait
    expect(pulse.waits.filter(({ bend, beats }) => bend === null && beats > 0.125)).toEqual([]);
  });

  it('moves everything by one clock for an even pulse', () => {
    const version = makeVersion('pulse', input);
    const moved = clockOf(version.clock);
    for (const { was, is } of twins(input, version)) expect([is.onsetS, is.releaseS]).toEqual([moved(was.onsetS), moved(was.releaseS)]);
    expect(version.recording.sustain).toEqual(input.recording.sustain.map(({ timeS, value }) => ({ timeS: moved(timeS), value })));
    version.clock.forEach(({ playedS, versionS }, i) => {
      if (i === 0) return;
      expect(playedS).toBeGreaterThan(version.clock[i - 1]!.playedS);
      expect(versionS).toBeGreaterThan(version.clock[i - 1]!.versionS);
    });
  });

  it('has the printed notes, each once, at the speed of the recording', () => {
    const version = makeVersion('printed', input);
    const again = heardAgain(input, version.recording);
    expect(again.alignment.added).toEqual([]);
    expect(again.observations.filter(({ aspect }) => aspect === 'rhythm' || aspect === 'pulse')).toEqual([]);
    wellFormed(version);
  });

  it('is a MIDI file like any other', () => {
    for (const name of VERSION_NAMES) {
      const { recording } = makeVersion(name, input);
      const read = readRecording(recordingBytes(recording, { name }), { fileName: `${name}.mid` });
      expect(read.notes.map(({ pitch, velocity }) => [pitch, velocity])).toEqual(expect.arrayContaining(recording.notes.map(({ pitch, velocity }) => [pitch, velocity])));
    }
  });
});

describe('a take of the demo’s maker without a fault', () => {
  it.each(['rowing-home/mei-castellow-2025-10-21', 'quayside-march/asha-vellory-2025-10-16', 'gull-chase/asha-vellory-2025-11-13'])('%s: next to nothing changes', (path) => {
    const [, name = ''] = path.split('/');
    const input = faultless(name);
    for (const version of VERSION_NAMES.filter((one) => one !== 'printed' && one !== 'pulse').map((one) => makeVersion(one, input))) {
      expect(version.changes.map(({ text }) => text), version.name).toEqual([]);
      expect(version.recording.notes, version.name).toEqual(input.recording.notes);
    }
    // one tempo in place of a player's phrasing: no beat is moved by more than 6 %, the least change that a listener hears in a single interval (Drake and Botte 1993)
    const { clock } = makeVersion('pulse', input);
    const off = clock.slice(1).map(({ playedS, versionS }, i) => Math.abs((versionS - clock[i]!.versionS) / (playedS - clock[i]!.playedS) - 1)).sort((a, b) => a - b);
    expect(off[Math.floor(off.length / 2)]).toBeLessThan(0.06);
  });
});

describe.each(corpusPairs())('open data: $name (left out without BARWISE_CORPUS)', (pair) => {
  it('has only the named thing changed', () => onlyTheNamedThing(corpusInput(pair)), 60_000);
});

describe('names of versions', () => {
  it('are known, and all have words', () => {
    expect(isVersionName('pedal')).toBe(true);
    expect(isVersionName('louder')).toBe(false);
    expect(VERSION_NAMES.map((name) => versionInWords(name)).every((words) => /^(with|as) /.test(words))).toBe(true);
  });
});
