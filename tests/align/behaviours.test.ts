/**
 * What pupils do at home, made from the two demo pieces. Where bars stand twice, going back could mean either place. Bars 1-7 of the
 * march stand there three times (repeat, reprise); of the barcarolle, bars 15-16 come again as 19-20, and 17, 21-23 are 1, 5-7
 * again. So who goes back here does so in bars 9-14 of the barcarolle and 10-17 of the march, which stand there once.
 */
import { describe, expect, it } from 'vitest';
import { asha, desmond, jonas, mei, nilo } from '../../src/demo/players.js';
import { keys } from './build.js';
import { demoPiece, judge, perform, slip, SLIPS, type DemoPiece, type Part, type True } from './takes.js';

const boat = demoPiece('rowing-home');
const march = demoPiece('quayside-march');
const PLAYERS = [mei, nilo, asha, desmond, jonas];

/** A behaviour: which piece, the way through it, and what else is done to the playing. */
interface Case {
  readonly piece: DemoPiece;
  readonly parts: readonly Part[];
  readonly then?: (notes: readonly True[], seed: number) => readonly True[];
}

const wholeBoat: Part = { from: '0', to: '30', pauseS: 0 };
const wholeMarch: Part = { from: '0', to: '25', pauseS: 0 };
const shift = (semitones: number, hand?: 'right' | 'left') => (notes: readonly True[]): readonly True[] =>
  notes.map((note) => (hand === undefined || note.hand === hand ? { ...note, pitch: note.pitch + semitones } : note));
const noodle = (notes: readonly True[]): readonly True[] => {
  const tried = keys(0.5, 0.31, 'G4 B4 A4 D5 - G4 F#4 G4').map((key): True => ({ ...key, note: null, pass: 1, attempt: 1, hand: 'right' }));
  return [...tried, ...notes.map((note) => ({ ...note, onsetS: note.onsetS + 5 }))];
};
const slips = (notes: readonly True[], seed: number): readonly True[] => slip(notes, SLIPS, seed);

const CASES: Readonly<Record<string, Case>> = {
  'plain, barcarolle': { piece: boat, parts: [wholeBoat] },
  'plain, march': { piece: march, parts: [wholeMarch] },
  'false start, barcarolle': { piece: boat, parts: [{ from: '0', to: '2', breakAt: 7, pauseS: 0 }, wholeBoat] },
  'false start, march': { piece: march, parts: [{ from: '0', to: '1', breakAt: 9, pauseS: 0 }, { ...wholeMarch, pauseS: 1.5 }] },
  'one bar three times more, barcarolle': { piece: boat, parts: [{ from: '0', to: '11', pauseS: 0 }, { from: '11', to: '11' }, { from: '11', to: '11' }, { from: '11', to: '30' }] },
  'one bar three times more, march': { piece: march, parts: [{ from: '0', to: '15', pauseS: 0 }, { from: '15', to: '15', pauseS: 0.7 }, { from: '15', to: '15', pauseS: 0.7 }, { from: '15', to: '25' }] },
  'one bar and nothing else, six times': { piece: boat, parts: Array.from({ length: 6 }, (): Part => ({ from: '13', to: '13' })) },
  'two bars over and over, barcarolle': { piece: boat, parts: [{ from: '9', to: '14', pauseS: 0 }, { from: '13', to: '14' }, { from: '13', to: '14' }, { from: '13', to: '30' }] },
  'two bars over and over, march': { piece: march, parts: [{ from: '10', to: '12', breakAt: 10, pauseS: 0 }, { from: '11', to: '12' }, { from: '11', to: '12', breakAt: 10 }, { from: '11', to: '25' }] },
  'all from the beginning again, barcarolle': { piece: boat, parts: [{ from: '0', to: '13', breakAt: 5, pauseS: 0 }, wholeBoat] },
  'all from the beginning again, march': { piece: march, parts: [{ from: '0', to: '12', breakAt: 9, pauseS: 0 }, { ...wholeMarch, pauseS: 2 }] },
  'bars left out, barcarolle': { piece: boat, parts: [{ from: '0', to: '10', pauseS: 0 }, { from: '14', to: '30' }] },
  'bars left out in time, march': { piece: march, parts: [{ from: '0', to: '11', pauseS: 0 }, { from: '14', to: '25', pauseS: null }] },
  'repeat left out': { piece: march, parts: [{ from: '0', to: '7', pauseS: 0 }, { from: '9', to: '25', pauseS: null }] },
  'hands apart, then together, barcarolle': { piece: boat, parts: [{ from: '9', to: '16', hands: 'right', pauseS: 0 }, { from: '9', to: '16', hands: 'left' }, { from: '9', to: '16' }] },
  'hands apart, then together, march': { piece: march, parts: [{ from: '10', to: '17', hands: 'right', pauseS: 0 }, { from: '10', to: '17', hands: 'left' }, { from: '10', to: '17' }] },
  'left hand alone, barcarolle': { piece: boat, parts: [{ ...wholeBoat, hands: 'left' }] },
  'right hand alone, march': { piece: march, parts: [{ ...wholeMarch, hands: 'right' }] },
  'a section, barcarolle': { piece: boat, parts: [{ from: '13', to: '16' }] },
  'a section, march': { piece: march, parts: [{ from: '14', to: '17' }] },
  'noodling first, barcarolle': { piece: boat, parts: [wholeBoat], then: noodle },
  'noodling first, march': { piece: march, parts: [wholeMarch], then: noodle },
  'slow at first, then fast, barcarolle': { piece: boat, parts: [{ from: '0', to: '14', tempo: 0.5, pauseS: 0 }, { from: '15', to: '30', tempo: 1.2, pauseS: null }] },
  'slow at first, then fast, march': { piece: march, parts: [{ from: '0', to: '9', tempo: 0.5, pauseS: 0 }, { from: '10', to: '25', tempo: 1.2, pauseS: null }] },
  'all an octave up': { piece: boat, parts: [wholeBoat], then: shift(12) },
  'right hand an octave up': { piece: boat, parts: [wholeBoat], then: shift(12, 'right') },
  'left hand an octave down, barcarolle': { piece: boat, parts: [wholeBoat], then: shift(-12, 'left') },
  'left hand an octave down, march': { piece: march, parts: [wholeMarch], then: shift(-12, 'left') },
  'keyboard transposed, barcarolle': { piece: boat, parts: [wholeBoat], then: shift(3) },
  'keyboard transposed, march': { piece: march, parts: [wholeMarch], then: shift(-2) },
  'many slips, barcarolle': { piece: boat, parts: [wholeBoat], then: slips },
  'many slips, march': { piece: march, parts: [wholeMarch], then: slips },
  'all at once, barcarolle': {
    piece: boat,
    parts: [{ from: '0', to: '2', breakAt: 7, pauseS: 0 }, { from: '0', to: '13', breakAt: 8 }, { from: '12', to: '12', hands: 'left' }, { from: '12', to: '16', tempo: 0.7 }, { from: '24', to: '30' }],
    then: (notes, seed) => noodle(slips(shift(-3)(notes), seed)),
  },
  'all at once, march': {
    piece: march,
    parts: [{ from: '0', to: '7', pauseS: 0 }, { from: '9', to: '12', pauseS: null }, { from: '11', to: '15', breakAt: 9 }, { from: '14', to: '15', tempo: 0.7 }, { from: '17', to: '25' }],
    then: (notes, seed) => noodle(slips(shift(2)(notes), seed)),
  },
};

/** Each case is played by so many of the five players. */
const TIMES = 3;
const figures: { f1: number; returns: number | null }[] = [];

describe.each(Object.entries(CASES))('%s', (_name, { piece, parts, then }) => {
  it.each(Array.from({ length: TIMES }, (_, i) => i))('played by somebody (%d)', (i) => {
    const seed = 900 + 17 * i + parts.length;
    const played = perform(piece, parts, { player: PLAYERS[(seed + i) % PLAYERS.length]!, seed });
    const notes = then ? then(played, seed) : played;
    const { f1, returns } = judge(piece.score, notes);
    figures.push({ f1, returns: notes.some((note) => note.attempt >= 2) ? returns : null });
    expect(f1).toBeGreaterThanOrEqual(0.95);
  });
});

describe('over all of them', () => {
  const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;

  it('pairs 99 in 100 notes right in the mean', () => {
    expect(figures).toHaveLength(TIMES * Object.keys(CASES).length);
    expect(mean(figures.map((one) => one.f1))).toBeGreaterThanOrEqual(0.99);
  });

  it('knows 97 in 100 notes that are played again, with their attempt', () => {
    const again = figures.flatMap((one) => (one.returns === null ? [] : [one.returns]));
    expect(again.length).toBeGreaterThan(20);
    expect(mean(again)).toBeGreaterThanOrEqual(0.97);
  });

});
