import { describe, expect, it } from 'vitest';
import { readScore, type Score } from '../../src/score/index.js';
import { expectInputError } from './errors.js';
import { bytes, readMidiTracks as read, time, track, type Played } from './midiBuild.js';
import { warningTexts } from './read.js';

describe('bars of a MIDI score', () => {
  it('come from the time signatures, a change in the middle of a bar cutting it short', () => {
    const score = read([
      track(
        [
          [0, 480, 60],
          [480 * 8, 480, 62],
        ],
        [
          [0, time(3, 4)],
          [480 * 4, time(2, 4)],
        ],
      ),
    ]);
    // a bar of 3/4 (72 ticks of 24), one of 3/4 cut after a crotchet, then bars of 2/4 up to the last note, in crotchet 8
    expect(score.bars.map((bar) => [bar.startTick, bar.lengthTicks, bar.time.beats])).toEqual([
      [0, 72, 3],
      [72, 24, 3],
      [96, 48, 2],
      [144, 48, 2],
      [192, 48, 2],
    ]);
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
    const score = read([
      track([
        [3, 200, 60],
        [242, 100, 62],
        [480 + 158, 100, 64],
        [960 + 63, 30, 65],
      ]),
    ]);
    expect(score.ticksPerQuarter).toBe(24);
    expect(score.notes.map((n) => n.onsetTick)).toEqual([0, 12, 32, 51]);
  });

  it('last at least a demisemiquaver', () => {
    expect(read([track([[0, 5, 60]])]).notes[0]!.lengthTicks).toBe(3);
  });

  it('sound over bar lines as one sound each, in order of onset and pitch', () => {
    const score = read([
      track([
        [0, 480 * 6, 64],
        [0, 480, 60],
        [480 * 4, 480, 62],
      ]),
    ]);
    expect(score.occurrences.map((o) => [o.midi, o.onsetTick, o.endTick, o.barIndex])).toEqual([
      [60, 0, 24, 0],
      [64, 0, 144, 0],
      [62, 96, 120, 1],
    ]);
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
    expect(
      read([
        track([
          [0, 480, 60],
          [0, 480, 36, 9],
        ]),
      ]).notes,
    ).toHaveLength(1);
  });

  it('tempo events become tempo marks in crotchets a minute', () => {
    const score = read([
      track(
        [[0, 480, 60]],
        [
          [0, { type: 'setTempo', microsecondsPerBeat: 500_000 }],
          [480, { type: 'setTempo', microsecondsPerBeat: 600_000 }],
        ],
      ),
    ]);
    expect(score.directions.map((d) => [d.kind, d.onsetTick, d.value])).toEqual([
      ['tempo', 0, 120],
      ['tempo', 24, 100],
    ]);
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
    expect(
      staves(
        read([
          track([
            [0, 480, 55, 1],
            [0, 480, 65, 0],
          ]),
        ]),
      ),
    ).toEqual({ 55: 2, 65: 1 });
  });

  it('else from middle C up, and the rule is said', () => {
    const score = read([
      track([
        [0, 480, 59],
        [0, 480, 60],
      ]),
    ]);
    expect(staves(score)).toEqual({ 59: 2, 60: 1 });
    expect(warningTexts(score)).toContainEqual(expect.stringContaining('middle C'));
  });

  it('one track may be asked for', () => {
    const tracks = [track([low], [], 'Left'), track([high], [], 'Right')];
    expect(read(tracks, 'track-2').notes.map((n) => n.pitch.midi)).toEqual([72]);
    expect(read(tracks, 'left').parts.map((part) => [part.id, part.notes, part.chosen])).toEqual([
      ['track-1', 1, true],
      ['track-2', 1, false],
    ]);
    expectInputError(() => read(tracks, 'flute'), 'no-such-part');
  });
});

describe('what a MIDI score cannot be or know', () => {
  it('always says what such a score does not tell', () => {
    expect(warningTexts(read([track([[0, 480, 60]], [[0, time(4, 4)]])]))[0]).toMatch(/no slurs.*repeats/);
  });

  it('says that a file looks played when a quarter of its notes stand off the grid', () => {
    // 10 ticks of 480 are a forty-eighth of a crotchet
    const notes = (off: number): readonly Played[] => [
      [0, 100, 60],
      [480, 100, 60],
      [960, 100, 60],
      [1440 + off, 100, 60],
    ];
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
    expectInputError(() => readScore(bytes([track([[0, 480, 60]])], { format: 2 }), { fileName: 'x.mid' }), 'unsupported', {
      says: /several pieces/,
    });
  });

  it('a time signature without beats, or finer than the grid, is refused', () => {
    const withTime = (numerator: number, denominator: number): (() => unknown) => () => read([track([[0, 480, 60]], [[0, time(numerator, denominator)]])]);
    // 3/64 of a semibreve would be 4.5 ticks of 24 to the crotchet
    expectInputError(withTime(0, 4), 'bad-value', { says: /time signature/, place: { bar: '1' } });
    expectInputError(withTime(3, 64), 'bad-value', { says: /time signature/ });
    expect(withTime(3, 32)).not.toThrow();
  });

  it('a file without notes is read, with a warning', () => {
    const score = read([track([])]);
    expect(score.occurrences).toEqual([]);
    expect(warningTexts(score)).toContainEqual(expect.stringContaining('rests alone'));
  });

  it('a note that never ends is held to the end of its track', () => {
    const events = track([
      [0, 480, 60],
      [960, 480, 62],
    ]).filter((event) => !(event.type === 'noteOff' && event.noteNumber === 60));
    const score = read([events]);
    expect(score.notes[0]!.pitch.midi).toBe(60);
    expect(warningTexts(score)).toContainEqual(expect.stringContaining('never end'));
  });
});
