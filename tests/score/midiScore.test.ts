import { writeMidi, type MidiEvent } from 'midi-file';
import { describe, expect, it } from 'vitest';
import { readScore, type Score } from '../../src/score/index.js';
import { expectInputError } from './errors.js';
import { readText, warningTexts } from './read.js';

// Invented MIDI files of 480 ticks a crotchet, written with midi-file.

/** A note as [onset, length, key] or with a channel at the end; ticks of the file. */
type Played = readonly [onset: number, length: number, key: number, channel?: number];

/** Events in order of time, a note's end before a start at the same tick. */
function track(notes: readonly Played[], metas: readonly (readonly [number, object])[] = [], name?: string): MidiEvent[] {
  const timed: { readonly tick: number; readonly rank: number; readonly event: object }[] = [
    ...(name === undefined ? [] : [{ tick: 0, rank: 0, event: { type: 'trackName', text: name, meta: true } }]),
    ...metas.map(([tick, event]) => ({ tick, rank: 1, event: { ...event, meta: true } })),
    ...notes.flatMap(([onset, length, noteNumber, channel = 0]) => [
      { tick: onset, rank: 3, event: { type: 'noteOn', channel, noteNumber, velocity: 64 } },
      { tick: onset + length, rank: 2, event: { type: 'noteOff', channel, noteNumber, velocity: 0 } },
    ]),
  ].sort((a, b) => a.tick - b.tick || a.rank - b.rank);
  let now = 0;
  const events = timed.map(({ tick, event }) => {
    const deltaTime = tick - now;
    now = tick;
    return { deltaTime, ...event } as MidiEvent;
  });
  return [...events, { deltaTime: 0, type: 'endOfTrack', meta: true }];
}

const time = (numerator: number, denominator: number): object => ({ type: 'timeSignature', numerator, denominator, metronome: 24, thirtyseconds: 8 });

function bytes(tracks: readonly MidiEvent[][], header: object = {}): Uint8Array {
  return Uint8Array.from(writeMidi({ header: { format: 1, numTracks: tracks.length, ticksPerBeat: 480, ...header }, tracks: [...tracks] }));
}

function read(tracks: readonly MidiEvent[][], part?: string): Score {
  return readScore(bytes(tracks), { fileName: 'invented.mid', ...(part === undefined ? {} : { part }) });
}

describe('bars of a MIDI score', () => {
  it('come from the time signatures, a change in the middle of a bar cutting it short', () => {
    const score = read([track([[0, 480, 60], [480 * 8, 480, 62]], [[0, time(3, 4)], [480 * 4, time(2, 4)]])]);
    // a bar of 3/4 (72 ticks of 24), one of 3/4 cut after a crotchet, then bars of 2/4 up to the last note, in crotchet 8
    expect(score.bars.map((bar) => [bar.startTick, bar.lengthTicks, bar.time.beats])).toEqual([[0, 72, 3], [72, 24, 3], [96, 48, 2], [144, 48, 2], [192, 48, 2]]);
    expect(score.order.map((visit) => visit.pass)).toEqual([1, 1, 1, 1, 1]);
  });

  it('without any time signature are of 4/4, with a warning', () => {
    const score = read([track([[0, 480, 60]])]);
    expect([score.bars[0]!.time.beats, score.bars[0]!.time.beatType]).toEqual([4, 4]);
    expect(warningTexts(score)).toContainEqual(expect.stringContaining('4/4'));
  });

  it('keep the key signature', () => {
    const score = read([track([[0, 480, 60]], [[0, { type: 'keySignature', key: -3, scale: 1 }]])]);
    expect(score.bars[0]!.key).toEqual({ fifths: -3, mode: 'minor' });
  });
});

describe('notes of a MIDI score', () => {
  it('stand on the nearest demisemiquaver or sixth of a crotchet', () => {
    // 480 ticks: a quaver 240, a triplet quaver 160, a demisemiquaver 60; a few ticks off each
    const score = read([track([[3, 200, 60], [242, 100, 62], [480 + 158, 100, 64], [960 + 63, 30, 65]])]);
    expect(score.ticksPerQuarter).toBe(24);
    expect(score.notes.map((n) => n.onsetTick)).toEqual([0, 12, 32, 51]);
  });

  it('last at least a demisemiquaver', () => {
    expect(read([track([[0, 5, 60]])]).notes[0]!.lengthTicks).toBe(3);
  });

  it('sound over bar lines as one sound each, in order of onset and pitch', () => {
    const score = read([track([[0, 480 * 6, 64], [0, 480, 60], [480 * 4, 480, 62]])]);
    expect(score.occurrences.map((o) => [o.midi, o.onsetTick, o.endTick, o.barIndex])).toEqual([[60, 0, 24, 0], [64, 0, 144, 0], [62, 96, 120, 1]]);
  });

  it('are spelled by the key signature', () => {
    const spelled = (fifths: number, key: number): string => {
      const { pitch } = read([track([[0, 480, key]], [[0, { type: 'keySignature', key: fifths, scale: 0 }]])]).notes[0]!;
      return `${pitch.step}${pitch.alter}${pitch.octave} ${pitch.midi}`;
    };
    // black keys in C major, D flat major (five flats) and B major (five sharps), common practice
    expect([spelled(0, 61), spelled(0, 63), spelled(0, 66), spelled(0, 70)]).toEqual(['C14 61', 'E-14 63', 'F14 66', 'B-14 70']);
    expect([spelled(-5, 61), spelled(-5, 66), spelled(5, 70), spelled(7, 72)]).toEqual(['D-14 61', 'G-14 66', 'A14 70', 'B14 72']);
  });

  it('of the drum channel are left out', () => {
    expect(read([track([[0, 480, 60], [0, 480, 36, 9]])]).notes).toHaveLength(1);
  });

  it('tempo events become tempo marks in crotchets a minute', () => {
    const score = read([track([[0, 480, 60]], [[0, { type: 'setTempo', microsecondsPerBeat: 500_000 }], [480, { type: 'setTempo', microsecondsPerBeat: 600_000 }]])]);
    expect(score.directions.map((d) => [d.kind, d.onsetTick, d.value])).toEqual([['tempo', 0, 120], ['tempo', 24, 100]]);
  });
});

describe('hands of a MIDI score', () => {
  const low: Played = [0, 480, 48];
  const high: Played = [0, 480, 72];
  const staves = (score: Score): Readonly<Record<number, number>> => Object.fromEntries(score.notes.map((n) => [n.pitch.midi, n.staff]));

  it('from the names of the tracks, even where the left hand plays above', () => {
    expect(staves(read([track([low], [], 'Right hand'), track([high], [], 'Left hand')]))).toEqual({ 48: 1, 72: 2 });
  });

  it('else of two tracks the higher on average is the right hand, whichever comes first', () => {
    expect(staves(read([track([low]), track([high])]))).toEqual({ 48: 2, 72: 1 });
    expect(staves(read([track([high]), track([low])]))).toEqual({ 48: 2, 72: 1 });
  });

  it('else of two channels of one track', () => {
    expect(staves(read([track([[0, 480, 55, 1], [0, 480, 65, 0]])]))).toEqual({ 55: 2, 65: 1 });
  });

  it('else from middle C up, and the rule is said', () => {
    const score = read([track([[0, 480, 59], [0, 480, 60]])]);
    expect(staves(score)).toEqual({ 59: 2, 60: 1 });
    expect(warningTexts(score)).toContainEqual(expect.stringContaining('middle C'));
  });

  it('one track may be asked for', () => {
    const tracks = [track([low], [], 'Left'), track([high], [], 'Right')];
    expect(read(tracks, 'track-2').notes.map((n) => n.pitch.midi)).toEqual([72]);
    expect(read(tracks, 'left').parts.map((part) => [part.id, part.notes, part.chosen])).toEqual([['track-1', 1, true], ['track-2', 1, false]]);
    expectInputError(() => read(tracks, 'flute'), 'no-such-part');
  });
});

describe('what a MIDI score cannot be or know', () => {
  it('always says what such a score does not tell', () => {
    expect(warningTexts(read([track([[0, 480, 60]], [[0, time(4, 4)]])]))[0]).toMatch(/no slurs.*repeats/);
  });

  it('says that a file looks played when a quarter of its notes stand off the grid', () => {
    // 10 ticks of 480 are a forty-eighth of a crotchet
    const notes = (off: number): readonly Played[] => [[0, 100, 60], [480, 100, 60], [960, 100, 60], [1440 + off, 100, 60]];
    expect(warningTexts(read([track(notes(10))]))).toContainEqual(expect.stringContaining('played rather than written'));
    expect(warningTexts(read([track(notes(0))]))).not.toContainEqual(expect.stringContaining('played rather than written'));
  });

  it('a damaged file, one that counts seconds, and one of several pieces are refused', () => {
    const whole = bytes([track([[0, 480, 60]])]);
    expectInputError(() => readScore(whole.slice(0, 20), { fileName: 'cut.mid' }), 'not-well-formed', { place: { file: 'cut.mid' } });
    // division -25 frames a second, 40 ticks a frame (MIDI file standard): bytes E7 28 at 12
    const seconds = whole.slice();
    seconds.set([0xe7, 0x28], 12);
    expectInputError(() => readScore(seconds, { fileName: 'x.mid' }), 'unsupported', { says: /seconds/ });
    expectInputError(() => readScore(bytes([track([[0, 480, 60]])], { format: 2 }), { fileName: 'x.mid' }), 'unsupported', { says: /several pieces/ });
  });

  it('a file without notes is read, with a warning', () => {
    const score = read([track([])]);
    expect(score.occurrences).toEqual([]);
    expect(warningTexts(score)).toContainEqual(expect.stringContaining('rests alone'));
  });

  it('a note that never ends is held to the end of its track', () => {
    const events = track([[0, 480, 60], [960, 480, 62]]).filter((event) => !(event.type === 'noteOff' && event.noteNumber === 60));
    const score = read([events]);
    expect(score.notes[0]!.pitch.midi).toBe(60);
    expect(warningTexts(score)).toContainEqual(expect.stringContaining('never end'));
  });
});

describe('the copy of a MIDI score for the engraver', () => {
  const music = [track([[0, 240, 60], [240, 160, 61], [400, 160, 62], [560, 160, 63], [960, 480 * 4, 67], [960, 480 * 4, 72], [1440, 480, 69]]), track([[480 * 3, 480 * 6, 43]])];

  it('read again has the same ids, moments, lengths, pitches and staves', () => {
    const score = read(music);
    const copy = readText(score.xml!);
    const facts = (from: Score): readonly unknown[] => from.occurrences
      .map((o) => [from.notes[o.noteIndex]!.id, o.onsetTick / from.ticksPerQuarter, o.endTick / from.ticksPerQuarter, o.midi, o.staff]);
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
    expect(readText(score.xml!).notes.map((n) => n.id).filter((id) => /^note-\d$/.test(id))).toHaveLength(6);
  });
});
