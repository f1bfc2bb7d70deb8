/**
 * Statements of harmony textbooks, one by one, beside the progressions of progressions.ts. Witnesses: the flattened supertonic sixth from a
 * teaching text (bass D and B flat, F above it in A minor); scales, cadences and borrowed chords are common practice; templates over
 * twelve roots after Pardo and Birmingham 2002.
 */
import { describe, expect, test } from 'vitest';
import { analyseHarmony, type Harmony } from '../../src/harmony/index.js';
import { harmonyCells } from '../../src/harmony/grid.js';
import { soundingNotes } from '../../src/harmony/notes.js';
import { CHORDS, chordPitchClasses, TEMPLATES } from '../../src/harmony/templates.js';
import { chords, piece } from './build.js';

const EVERY_KEY = [-6, -5, -4, -3, -2, -1, 0, 1, 2, 3, 4, 5];
const found = (text: string, move: number): readonly Harmony[] => analyseHarmony(chords(text, { move })).harmonies;

describe.each(EVERY_KEY)('moved by %i fifths', (move) => {
  test('the flattened supertonic sixth stands before the dominant, on its third, with one note foreign to minor and two to major', () => {
    const minor = found('A2 E4 A4 C5; D3 F4 Bb4 D5; E3 E4 G#4 B4; A2 E4 A4 C5', move)[1]!;
    expect([minor.degree, minor.function, minor.inversion, minor.quality]).toEqual(['N6', 'predominant', 1, 'major']);
    const major = found('C3 E4 G4 C5; F3 F4 Ab4 Db5; G3 D4 G4 B4; C3 E4 G4 C5', move)[1]!;
    expect([major.degree, major.function, major.inversion, major.quality]).toEqual(['N6', 'predominant', 1, 'major']);
    // how many of its three notes the plain scales lack: B flat of A natural minor; D flat and A flat of C major
    const foreign = (harmony: Harmony, tonic: number, scale: readonly number[]): number => [0, 4, 7].filter((step) => !scale.includes((harmony.root! + step - tonic + 24) % 12)).length;
    const tonic = (base: number): number => (((base + 7 * move) % 12) + 12) % 12;
    expect(foreign(minor, tonic(9), [0, 2, 3, 5, 7, 8, 10])).toBe(1);
    expect(foreign(major, tonic(0), [0, 2, 4, 5, 7, 9, 11])).toBe(2);
  });

  test('the same three notes are the submediant sixth a fourth higher', () => {
    expect(found('D3 D4 F4 A4; D3 F4 Bb4 D5; A2 E4 A4 C#5; D3 D4 F4 A4', move)[1]!.degree).toBe('VI6');
  });

  test('the dominant of a minor key is major: its third is the raised leading note', () => {
    const dominant = found('A2 E4 A4 C5; E3 E4 G#4 B4; A2 E4 A4 C5', move)[1]!;
    expect([dominant.degree, dominant.quality, dominant.function]).toEqual(['V', 'major', 'dominant']);
  });

  test('the cadential six-four belongs to the dominant: its root, its function', () => {
    const [, , sixFour, dominant] = found('C3 E4 G4 C5; F3 F4 A4 D5; G3 E4 G4 C5; G3 D4 G4 B4; C3 E4 G4 C5', move);
    expect([sixFour!.root, sixFour!.function]).toEqual([dominant!.root, 'dominant']);
  });

  test('borrowed from the parallel minor: iv, bIII, bVI and bVII; their own chords are not', () => {
    const text = 'C3 E4 G4 C5; F3 F4 Ab4 C5; C3 E4 G4 C5; Eb3 G4 Bb4 Eb5; F3 F4 A4 C5; C3 E4 G4 C5; Bb2 D4 F4 Bb4; F3 C4 F4 A4; Ab3 C4 Eb4 Ab4; G3 D4 G4 B4; C3 E4 G4 C5';
    const harmonies = found(text, move);
    expect(harmonies.filter(({ borrowed }) => borrowed).map(({ degree }) => degree)).toEqual(['iv', 'bIII', 'bVII', 'bVI']);
  });

  test('melodic minor up, natural minor down: plain minor, no mode', () => {
    const up = 'A4:0.5 B4:0.5 C5:0.5 D5:0.5 E5:0.5 F#5:0.5 G#5:0.5 A5:0.5';
    const down = 'A5:0.5 G5:0.5 F5:0.5 E5:0.5 D5:0.5 C5:0.5 B4:0.5 A4:0.5';
    const { globalKey } = analyseHarmony(piece({ voices: [`${up} ${down} ${up} A5:4`, 'A2+E3:4 A2+E3:4 E3+B3:4 A2+E3:4'], move }));
    expect([globalKey?.mode, globalKey?.colour]).toEqual(['minor', null]);
  });
});

describe('templates over twelve roots (Pardo and Birmingham 2002)', () => {
  // the six types from memory: two triads, the dominant seventh, the diminished triad and two diminished sevenths
  const SIX = ['major', 'minor', 'dominantSeventh', 'diminished', 'halfDiminishedSeventh', 'diminishedSeventh'];
  // semitones as any textbook has them
  const INTERVALS: Readonly<Record<string, readonly number[]>> = {
    major: [0, 4, 7], minor: [0, 3, 7], dominantSeventh: [0, 4, 7, 10], diminished: [0, 3, 6], halfDiminishedSeventh: [0, 3, 6, 10], diminishedSeventh: [0, 3, 6, 9],
  };

  test('six types make seventy-two chords, all different', () => {
    const chosen = CHORDS.filter(({ template }) => SIX.includes(template.quality));
    expect(chosen).toHaveLength(72);
    expect(new Set(chosen.map(({ root, template }) => `${template.quality} ${root}`)).size).toBe(72);
  });

  test.each(SIX)('%s has the notes of the textbook', (quality) => {
    expect(TEMPLATES.find((template) => template.quality === quality)?.intervals).toEqual(INTERVALS[quality]);
    const onD = CHORDS.find((chord) => chord.root === 2 && chord.template.quality === quality)!;
    expect(chordPitchClasses(onD)).toEqual(INTERVALS[quality]!.map((step) => (2 + step) % 12));
  });

  test('a cell begins with every onset on the metre, and lasts to the next', () => {
    // onsets at 0, 1, 2 and 3 crotchets and at 1.5
    const score = piece({ voices: ['C5:1 D5:0.5 E5:0.5 F5:2', 'C3:2 F3:1 G3:1'] });
    const quarter = score.ticksPerQuarter;
    const cells = harmonyCells(score, soundingNotes(score));
    expect(cells.map(({ from, to }) => [from / quarter, to / quarter])).toEqual([[0, 1], [1, 1.5], [1.5, 2], [2, 3], [3, 4]]);
  });
});
