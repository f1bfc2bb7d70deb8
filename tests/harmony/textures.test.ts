/** Figures, foreign notes, incomplete chords and pieces with little to say. Witness: worked by hand in each test. */
import { describe, expect, test } from 'vitest';
import { analyseHarmony, type Harmony } from '../../src/harmony/index.js';
import type { Score } from '../../src/score/index.js';
import { chords, piece } from './build.js';

const degrees = (score: Score): string => analyseHarmony(score).harmonies.map(({ degree }) => degree).join(' ');
const at = (score: Score, i: number): Harmony => analyseHarmony(score).harmonies[i]!;
const kinds = (harmony: Harmony): readonly string[] => harmony.nonChordNotes.map(({ kind, figure }) => (figure === null ? kind : `${kind} ${figure}`));

/** Every test of a texture is also made a few keys away. */
const MOVES = [-4, 0, 3];

describe.each(MOVES)('broken chords, moved by %i fifths', (move) => {
  const alberti = (a: string, b: string, c: string): string => [a, c, b, c, a, c, b, c].map((p) => `${p}:0.5`).join(' ');

  test('Alberti bass: one harmony a bar', () => {
    const left = [alberti('C3', 'E3', 'G3'), alberti('B2', 'D3', 'G3'), alberti('C3', 'E3', 'G3')].join(' ');
    expect(degrees(piece({ voices: ['E5:2 G5:2 F5:2 D5:2 E5:4', left], move }))).toBe('I V65 I');
  });

  test('arpeggios over two octaves', () => {
    const up = (notes: string): string => notes.split(' ').map((p) => `${p}:0.5`).join(' ');
    const right = [up('G4 C5 E5 G5 C6 G5 E5 C5'), up('A4 C5 F5 A5 C6 A5 F5 C5'), up('G4 B4 D5 F5 G5 F5 D5 B4'), up('G4 C5 E5 G5 C6 G5 E5 C5')].join(' ');
    expect(degrees(piece({ voices: [right, 'C3:4 F3:4 G3:4 C3:4'], move }))).toBe('I IV V7 I');
  });

  test('waltz: bass first, chord after it', () => {
    const bar = (bass: string, chord: string): string => `${bass}:1 ${chord}:1 ${chord}:1`;
    const left = [bar('C3', 'E3+G3+C4'), bar('G2', 'D3+F3+B3'), bar('G2', 'D3+F3+B3'), bar('C3', 'E3+G3+C4')].join(' ');
    expect(degrees(piece({ voices: ['G4:3 F4:3 D4:3 E4:3', left], beats: 3, move }))).toBe('I V7 I');
  });

  test('two harmonies a bar in a march bass', () => {
    const left = 'C3:1 E3+G3:1 G2:1 D3+F3+B3:1 C3:1 E3+G3:1 C3:2';
    expect(degrees(piece({ voices: ['E4:2 F4:2 E4:2 C5:2', left], move }))).toBe('I V7 I');
  });
});

describe.each(MOVES)('basses that are left, moved by %i fifths', (move) => {
  const bar = (bass: string, chord: string): string => `${bass}:1 ${chord}:2`;

  test('the bass counts under the chord that follows it: V7 from the first beat on, its root struck before third and seventh', () => {
    // C over G goes to B: a suspension in G7; the bar has one harmony
    const left = [bar('C3', 'G3+E4'), bar('G3', 'B3+F4'), bar('C3', 'G3+E4')].join(' ');
    const score = piece({ voices: ['E5:1 G5:1 C6:1~ C6:1 B5:1 G5:1 G5:3', left], beats: 3, move });
    expect(analyseHarmony(score).harmonies.map(({ degree, barIndex, offset }) => [degree, barIndex, offset])).toEqual([['I', 0, 0], ['V7', 1, 0], ['I', 2, 0]]);
  });

  test('A under C and E is the submediant, though A is struck alone', () => {
    // D over A goes to C: a fourth and a third above the bass, as in an interrupted cadence
    const left = [bar('C3', 'G3+E4'), bar('G3', 'B3+F4'), bar('A3', 'C4+E4'), bar('F3', 'A3+C4'), bar('G3', 'B3+F4'), bar('C3', 'G3+E4')].join(' ');
    const score = piece({ voices: ['E5:3 D5:3~ D5:1 C5:2 C5:3 D5:3 C5:3', left], beats: 3, move });
    expect(degrees(score)).toBe('I V7 vi IV V7 I');
  });
});

/** All twelve keys: suspensions and pedal points are found in each. */
const EVERY_KEY = [-6, -5, -4, -3, -2, -1, 0, 1, 2, 3, 4, 5];

describe.each(EVERY_KEY)('notes foreign to their harmony, moved by %i fifths', (move) => {
  test('4-3: the third comes late, the fourth is held over', () => {
    // C over F held into G, falling to B: a fourth above the bass, then a third
    const score = piece({ voices: ['A4:2 D5:2 E5:4', 'F4:2 G4:2 G4:4', 'C5:2~ C5:1 B4:1 C5:4', 'F3:2 G3:2 C3:4'], move });
    const dominant = at(score, 1);
    expect(dominant.degree).toBe('V');
    expect(kinds(dominant)).toEqual(['suspension 4-3']);
    expect(dominant.members.late).toEqual(['third']);
  });

  test('7-6: over a chord of the sixth', () => {
    // D of the dominant held over E in the bass, falling to C: a seventh above it, then a sixth
    const score = piece({ voices: ['D5:2~ D5:1 C5:1 C5:4', 'B4:2 G4:2 G4:4', 'G2:2 E3:2 C3+E3:4'], move });
    expect(at(score, 1).degree).toBe('I6');
    expect(kinds(at(score, 1))).toEqual(['suspension 7-6']);
  });

  test('9-8: over the tonic', () => {
    // D of the dominant held over C, falling to C: a ninth, then an octave
    const score = piece({ voices: ['D5:2~ D5:1 C5:1 C5:4', 'B4:2 G4:2 E4:4', 'F4:2 E4:2 G4:4', 'G2:2 C3:2 C3:4'], move });
    expect(at(score, 1).degree).toBe('I');
    expect(kinds(at(score, 1))).toEqual(['suspension 9-8']);
  });

  test('passing notes between members', () => {
    // C D E F G over a held C major chord: D and F pass
    const score = piece({ voices: ['C5:1 D5:1 E5:1 F5:1 G5:4', 'C3+E3+G3:4 C3+E3+G3:4'], move });
    expect(degrees(score)).toBe('I');
    expect(kinds(at(score, 0))).toEqual(['passing', 'passing']);
  });

  test('neighbour notes', () => {
    // G A G and E D E over a held C major chord
    const score = piece({ voices: ['G4:1 A4:1 G4:2 E4:1 D4:1 E4:2', 'C3+E3+G3:4 C3+E3+G3:4'], move });
    expect(degrees(score)).toBe('I');
    expect(kinds(at(score, 0))).toEqual(['neighbour', 'neighbour']);
  });

  test('tonic pedal: harmonies change over a held bass', () => {
    const score = piece({ voices: ['E4+G4+C5:2 F4+A4+C5:2 D4+F4+B4:2 E4+G4+C5:2', 'C3:4~ C3:4'], move });
    expect(degrees(score)).toMatch(/^I IV64 (viio|V7) I$/u);
    expect(kinds(at(score, 2))).toEqual(['pedal']);
  });
});

describe('incomplete and ambiguous chords', () => {
  test('a chord without its third is named so', () => {
    const score = chords('C3 G3 G4 C5; G2 D4 G4 B4; C3 E4 G4 C5; G2 D4 G4 B4; C3 G3 G4 C5');
    const first = at(score, 0);
    expect([first.name, first.quality, first.degree]).toEqual(['C5', 'openFifth', 'I']);
    expect(first.members.missing).toEqual(['third']);
  });

  test('a dominant seventh without its fifth', () => {
    const score = chords('C3 E4 G4 C5; G2 F4 G4 B4; C3 E4 G4 C5');
    expect(at(score, 1).members.missing).toEqual(['fifth']);
  });

  test('a dominant seventh without its root goes by its leading-note triad or its dominant, never a stranger', () => {
    const score = chords('C3 E4 G4 C5; D3 F4 B4 D5; C3 E4 G4 C5');
    expect(['V43', 'viio6']).toContain(at(score, 1).degree);
  });

  test('N6 and its twin: D F Bb is the flattened supertonic in A minor, the submediant in D minor', () => {
    // check values: Neapolitan sixth, "bass D and set {10,2,5} in A minor is N6, in D minor VI6"
    const inA = at(chords('A2 E4 A4 C5; D3 D4 F4 Bb4; E3 E4 G#4 B4; A2 E4 A4 C5'), 1);
    expect([inA.degree, inA.function, inA.rootName, inA.inversion]).toEqual(['N6', 'predominant', 'Bb', 1]);
    const inD = at(chords('D3 D4 F4 A4; D3 D4 F4 Bb4; A2 E4 A4 C#5; D3 D4 F4 A4', { fifths: -1 }), 1);
    expect(inD.degree).toBe('VI6');
  });

  test('the same keys as B diminished and as F diminished seventh: spelling decides', () => {
    // B D F Ab stands on B; spelled D F Ab Cb it stands on D (its sharpest note)
    expect(at(chords('C3 Eb4 G4 C5; B2 D4 F4 Ab4; C3 Eb4 G4 C5', { fifths: -3 }), 1).rootName).toBe('B');
    expect(at(chords('Eb3 G4 Bb4 Eb5; D3 F4 Ab4 Cb5; Eb3 G4 Bb4 Eb5', { fifths: -3 }), 1).rootName).toBe('D');
  });

  test('dominant ninth', () => {
    const score = chords('C3 E4 G4 C5; G2 F4 B4 A5; C3 E4 G4 C5', { length: 4 });
    expect(at(score, 1).name).toBe('G9');
  });
});

describe('little to say', () => {
  test('rests alone', () => {
    expect(analyseHarmony(piece({ voices: ['r:4 r:4', 'r:4 r:4'] }))).toEqual({ globalKey: null, keys: [], harmonies: [], cadences: [], phraseEnds: [] });
  });

  test('one note', () => {
    const { harmonies, cadences } = analyseHarmony(piece({ voices: ['C4:4', 'r:4'] }));
    expect(harmonies).toHaveLength(1);
    expect(cadences).toEqual([]);
  });

  test('a tune alone keeps its key, and its harmonies are unsure', () => {
    // C major scale figures ending on the tonic
    const { globalKey, harmonies } = analyseHarmony(piece({ voices: ['C4:1 D4:1 E4:1 F4:1 G4:1 A4:1 B4:1 C5:1 B4:1 G4:1 A4:1 B4:1 C5:4', 'r:4 r:4 r:4 r:4'] }));
    expect([globalKey?.tonic, globalKey?.mode]).toEqual([0, 'major']);
    expect(Math.max(...harmonies.slice(0, -1).map(({ confidence }) => confidence))).toBeLessThan(0.9);
  });

  test('clusters: no root is claimed', () => {
    const cluster = 'C4+C#4+D4+D#4+E4+F4+F#4:4';
    const { harmonies } = analyseHarmony(piece({ voices: [`${cluster} ${cluster}`, 'G3+G#3+A3+A#3+B3:4 G3+G#3+A3+A#3+B3:4'] }));
    expect(harmonies.map(({ root, quality, name }) => [root, quality, name])).toEqual(harmonies.map(() => [null, 'none', '']));
  });

  test('one long bar: offsets run on', () => {
    const score = piece({ voices: ['E4+G4:4 F4+A4:4 D4+F4:4 E4+G4:4', 'C3:4 F3:4 G3+B3:4 C3:4'], beats: 16 });
    expect(analyseHarmony(score).harmonies.map(({ offset }) => offset)).toEqual([0, 4, 8, 12]);
  });
});
