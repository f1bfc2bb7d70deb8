/** Mode from the notes, colour, close, spelling, cadence kinds, the report. Witness: worked by hand in each test. */
import { describe, expect, test } from 'vitest';
import { word } from '../../src/base/index.js';
import { analyseHarmony, harmonyReport } from '../../src/harmony/index.js';
import { chords, piece } from './build.js';

const MAJOR = 'C3 E4 G4 C5; F3 F4 A4 C5; G3 D4 F4 B4; C3 E4 G4 C5';
const MINOR = 'A2 E4 A4 C5; D3 D4 F4 A4; E3 D4 G#4 B4; A2 E4 A4 C5';

describe('global key', () => {
  test('two sharps are D major or B minor, as the notes have it', () => {
    const key = (text: string): unknown => { const { globalKey } = analyseHarmony(chords(text, { move: 2 })); return [globalKey?.spelling, globalKey?.mode]; };
    expect(key(MAJOR)).toEqual(['D', 'major']);
    expect(key(MINOR)).toEqual(['B', 'minor']);
  });

  test('Picardy third: still minor, closing in major', () => {
    const { globalKey } = analyseHarmony(chords(`${MINOR}; D3 D4 F4 A4; E3 D4 G#4 B4; A2 E4 A4 C#5`));
    expect(globalKey).toMatchObject({ tonic: 9, mode: 'minor', picardyClose: true });
    expect(analyseHarmony(chords(MINOR)).globalKey?.picardyClose).toBe(false);
  });

  test.each([-5, 0, 4])('a piece may begin away from home: on the dominant of A minor, then in C to the end (moved by %i fifths)', (move) => {
    const away = 'E3 D4 G#4 B4; E3 D4 G#4 B4; E3 D4 G#4 B4; F3 C4 A4 C5; E3 D4 G#4 B4; E3 D4 G#4 B4; E3 D4 G#4 B4; E3 D4 G#4 B4';
    const home = 'G2 F4 G4 B4; C3 E4 G4 C5; F3 F4 A4 C5; G2 F4 G4 B4; C3 E4 G4 C5; G2 D4 G4 B4; C3 E4 G4 C5; C3 E4 G4 C5';
    const { globalKey, keys } = analyseHarmony(chords(`${away}; ${home}`, { move }));
    const tonic = (base: number): number => (((base + 7 * move) % 12) + 12) % 12;
    expect([globalKey?.tonic, globalKey?.mode]).toEqual([tonic(0), 'major']);
    expect([keys[0]?.tonic, keys[0]?.mode]).toEqual([tonic(9), 'minor']);
  });

  test.each([[6, 'F#'], [-6, 'Gb']] as const)('signature of %i: the tonic is spelled %s', (move, spelling) => {
    expect(analyseHarmony(chords(MAJOR, { move })).globalKey?.spelling).toBe(spelling);
  });
});

describe.each([-6, -5, -4, -3, -2, -1, 0, 1, 2, 3, 4, 5])('modal colour, moved by %i fifths', (move) => {
  const tune = (right: string, left: string, fifths: number): string | null | undefined => analyseHarmony(piece({ voices: [right, left], fifths, move })).globalKey?.colour;

  test('natural minor: G natural, never G sharp', () => {
    expect(tune('A4:1 C5:1 E5:1 A4:1 G4:1 B4:1 D5:1 G4:1 F4:1 A4:1 C5:1 F4:1 A4:4', 'A3+C4+E4:4 G3+B3+D4:4 F3+A3+C4:4 A3+C4+E4:4', 0)).toBe('natural minor');
  });

  test('Dorian: F sharp and G natural over A', () => {
    expect(tune('A4:1 C5:1 E5:1 A4:1 F#4:1 A4:1 D5:1 F#4:1 G4:1 B4:1 D5:1 G4:1 A4:4', 'A3+C4+E4:4 D3+F#3+A3:4 G3+B3+D4:4 A3+C4+E4:4', 0)).toBe('Dorian');
  });

  test('Phrygian: B flat and G natural over A', () => {
    expect(tune('A4:1 C5:1 E5:1 A4:1 Bb4:1 D5:1 F5:1 Bb4:1 G4:1 Bb4:1 D5:1 G4:1 A4:4', 'A3+C4+E4:4 Bb3+D4+F4:4 G3+Bb3+D4:4 A3+C4+E4:4', 0)).toBe('Phrygian');
  });

  test('Mixolydian: B flat and never B over C', () => {
    expect(tune('C5:1 E5:1 G5:1 C5:1 Bb4:1 D5:1 F5:1 Bb4:1 A4:1 C5:1 F5:1 A4:1 C5:4', 'C3+E3+G3:4 Bb2+D3+F3:4 F3+A3+C4:4 C3+E3+G3:4', 0)).toBe('Mixolydian');
  });

  test('a raised leading note is plain minor', () => {
    expect(analyseHarmony(chords(MINOR)).globalKey?.colour).toBeNull();
  });
});

describe('a change of key', () => {
  test('eight bars of C, eight of E flat: both are found, where they begin', () => {
    const inC = Array.from({ length: 4 }, () => MAJOR).join('; ');
    const inEFlat = Array.from({ length: 4 }, () => 'Eb3 G4 Bb4 Eb5; Ab3 Ab4 C5 Eb5; Bb3 F4 Ab4 D5; Eb3 G4 Bb4 Eb5').join('; ');
    const { keys } = analyseHarmony(chords(`${inC}; ${inEFlat}`));
    expect(keys.map(({ spelling, mode, barIndex }) => [spelling, mode, barIndex])).toEqual([['C', 'major', 0], ['Eb', 'major', 8]]);
  });
});

describe('cadences', () => {
  const close = (text: string): string | undefined => analyseHarmony(chords(text)).cadences.at(-1)?.kind;

  test.each([
    ['perfect', MAJOR],
    ['plagal', 'C3 E4 G4 C5; G3 D4 G4 B4; C3 E4 G4 C5; F3 F4 A4 C5; C3 E4 G4 C5'],
    ['interrupted', 'C3 E4 G4 C5; F3 F4 A4 C5; G3 D4 F4 B4; A3 C4 E4 C5'],
    ['imperfect', 'C3 E4 G4 C5; A3 E4 A4 C5; D3 F4 A4 D5; G3 D4 G4 B4'],
    ['imperfect', 'C3 E4 G4 C5; F3 F4 A4 D5; G3 E4 G4 C5; G3 D4 G4 B4'],
  ] as const)('%s', (kind, text) => {
    expect(close(text)).toBe(kind);
  });

  test('their names in both kinds of English', () => {
    expect([word('imperfectCadence'), word('imperfectCadence', 'american')]).toEqual(['imperfect cadence', 'half cadence']);
    expect([word('interruptedCadence'), word('interruptedCadence', 'american')]).toEqual(['interrupted cadence', 'deceptive cadence']);
  });
});

test('the report names printed bars and crotchets', () => {
  const score = chords(MAJOR);
  const report = harmonyReport(score, analyseHarmony(score));
  expect(report.harmonies.map(({ bar, offset, root }) => [bar, offset, root])).toEqual([['1', 0, 0], ['1', 2, 5], ['2', 0, 7], ['2', 2, 0]]);
  expect(report.keys[0]).toMatchObject({ bar: '1', tonic: 0, mode: 'major', name: 'C major' });
  expect(report.cadences).toEqual([{ bar: '2', offset: 2, kind: 'perfect' }]);
  expect(report.phrases).toEqual([{ from: { bar: '1', offset: 0 }, to: { bar: '2', offset: 2 } }]);
});
