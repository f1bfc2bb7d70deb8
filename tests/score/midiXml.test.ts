import { describe, expect, it } from 'vitest';
import type { Score } from '../../src/score/index.js';
import { readMidiTracks as read, track, type Played } from './midiBuild.js';
import { readText } from './read.js';

describe('the copy of a MIDI score for the engraver', () => {
  const music = [
    track([
      [0, 240, 60],
      [240, 160, 61],
      [400, 160, 62],
      [560, 160, 63],
      [960, 480 * 4, 67],
      [960, 480 * 4, 72],
      [1440, 480, 69],
    ]),
    track([[480 * 3, 480 * 6, 43]]),
  ];

  it('read again has the same ids, moments, lengths, pitches and staves', () => {
    const score = read(music);
    const copy = readText(score.xml!);
    const facts = (from: Score): readonly unknown[] =>
      from.occurrences.map((o) => [
        from.notes[o.noteIndex]!.id,
        o.onsetTick / from.ticksPerQuarter,
        o.endTick / from.ticksPerQuarter,
        o.midi,
        o.staff,
      ]);
    expect(facts(copy)).toEqual(facts(score));
    expect(copy.bars.map((bar) => bar.lengthTicks / copy.ticksPerQuarter)).toEqual([4, 4, 4]);
    expect(copy.warnings).toEqual([]);
  });

  it('prints an accidental once a bar, and none that the key signature gives', () => {
    const accidentals = (fifths: number, keys: readonly number[]): readonly string[] => {
      const notes = keys.map((key, i): Played => [i * 480, 480, key]);
      const { xml } = read([track(notes, [[0, { type: 'keySignature', key: fifths, scale: 0 }]])]);
      return [...xml!.matchAll(/<accidental>(.*?)<\/accidental>/g)].map((match) => match[1]!);
    };
    // C major: F sharp, F sharp again, F natural; D major: F sharp needs none; next bar starts afresh
    expect(accidentals(0, [66, 66, 65, 64])).toEqual(['sharp', 'natural']);
    expect(accidentals(2, [66, 65, 66, 62])).toEqual(['natural', 'sharp']);
    expect(accidentals(0, [66, 60, 60, 60, 66])).toEqual(['sharp', 'sharp']);
  });

  it('five notes that overlap at unlike moments still give a readable copy with all ids', () => {
    const pile = Array.from({ length: 6 }, (_, i): Played => [i * 240, 480 * 4 - i * 240, 60 + i]);
    const score = read([track(pile)]);
    expect(
      readText(score.xml!)
        .notes.map((n) => n.id)
        .filter((id) => /^note-\d$/.test(id)),
    ).toHaveLength(6);
  });
});
