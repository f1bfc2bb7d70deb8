/** Hand-worked cases of hands: one alone, apart and then together, an octave off, and the whole keyboard transposed. */
import { describe, expect, it } from 'vitest';
import { match, missed, route, said } from './build.js';
import { BAR_S, names, plays, tune } from './tune.js';

const both = tune();

describe('one hand alone', () => {
  it.each(['right', 'left'] as const)('follows the %s hand and does not miss the other', (hand) => {
    const matched = match(both, plays(1, 8, 0, { hand }));
    expect([said(matched), missed(matched), route(matched)]).toEqual([names(1, 8, { hand }), '', `1-8 ${hand}`]);
    expect(matched.alignment.hands).toBe(hand);
  });

  it('still misses notes of the hand that plays', () => {
    // beat 3 of bar 4: E5
    const matched = match(both, plays(1, 8, 0, { hand: 'right' }).filter((key) => key.onsetS !== 3.5 * BAR_S));
    expect(missed(matched)).toBe('r4-3');
    expect(matched.alignment.hands).toBe('right');
  });

  it('follows hands apart and then together as three attempts', () => {
    const matched = match(both, plays(1, 4, 0, { hand: 'right' }), plays(1, 4, 10, { hand: 'left' }), plays(1, 4, 20));
    expect(route(matched)).toBe('1-4 right, 1-4@2 left, 1-4@3');
    expect(said(matched)).toBe([names(1, 4, { hand: 'right' }), names(1, 4, { hand: 'left', attempt: 2 }), names(1, 4, { attempt: 3 })].join(' '));
    expect([missed(matched), matched.alignment.hands]).toEqual(['', 'mixed']);
  });

  it('cuts the route where a hand falls silent and comes in again', () => {
    const matched = match(both, plays(1, 8, 0).filter((key) => key.pitch >= 58 || key.onsetS < 2 * BAR_S || key.onsetS >= 5 * BAR_S));
    expect(route(matched)).toBe('1-2, 3-5 right, 6-8');
    expect([missed(matched), matched.alignment.hands]).toEqual(['', 'mixed']);
  });

  it('calls a few notes of one hand missed, not a silent hand', () => {
    // the left hand is silent in bar 3 alone, four notes
    const matched = match(both, plays(1, 8, 0).filter((key) => key.pitch >= 58 || key.onsetS < 2 * BAR_S || key.onsetS >= 3 * BAR_S));
    expect(route(matched)).toBe('1-8');
    expect(missed(matched)).toBe('l3-1 l3-2 l3-3 l3-4');
    expect(matched.alignment.hands).toBe('both');
  });
});

describe('octaves', () => {
  const shifted = (semitones: number, hand: 'right' | 'left'): ReturnType<typeof match> =>
    match(both, plays(1, 8, 0, { hand: 'right' }).map((key) => ({ ...key, pitch: key.pitch + (hand === 'right' ? semitones : 0) })), plays(1, 8, 0, { hand: 'left' }).map((key) => ({ ...key, pitch: key.pitch + (hand === 'left' ? semitones : 0) })));

  it.each([['right', 12, 1], ['left', -12, -1]] as const)('follows the %s hand %d semitones off over the whole piece', (hand, semitones, octaves) => {
    const matched = shifted(semitones, hand);
    expect([missed(matched), route(matched)]).toEqual(['', '1-8']);
    expect(matched.alignment.transposition).toBe(0);
    const slips = (letter: 'r' | 'l'): number[] => matched.alignment.pairs.filter((pair) => matched.score.notes[matched.score.occurrences[pair.occurrence]!.noteIndex]!.id.startsWith(letter)).map((pair) => pair.octaveSlip);
    // 8 bars of 4 notes in each hand
    expect(slips('r')).toEqual(Array(32).fill(hand === 'right' ? octaves : 0));
    expect(slips('l')).toEqual(Array(32).fill(hand === 'left' ? octaves : 0));
  });

  it('follows the left hand an octave down over three bars', () => {
    const matched = match(both, plays(1, 8, 0).map((key) => (key.pitch < 58 && key.onsetS >= 2 * BAR_S && key.onsetS < 5 * BAR_S ? { ...key, pitch: key.pitch - 12 } : key)));
    expect([missed(matched), route(matched)]).toEqual(['', '1-8']);
    const off = matched.alignment.pairs.filter((pair) => pair.octaveSlip !== 0);
    expect(off).toHaveLength(12);
    expect(off.every((pair) => pair.octaveSlip === -1)).toBe(true);
  });
});

describe('keyboard transposed', () => {
  it.each([1, 2, 5, -3, 12, -12])('by %d semitones: the same pairs, and no octave slips', (semitones) => {
    const matched = match(both, plays(1, 8, 0).map((key) => ({ ...key, pitch: key.pitch + semitones })));
    expect(matched.alignment.transposition).toBe(semitones);
    expect([said(matched), missed(matched), route(matched)]).toEqual([names(1, 8), '', '1-8']);
  });

  it('is found with one hand alone too', () => {
    const matched = match(both, plays(1, 8, 0, { hand: 'right' }).map((key) => ({ ...key, pitch: key.pitch + 2 })));
    expect(matched.alignment.transposition).toBe(2);
    expect([said(matched), missed(matched), route(matched)]).toEqual([names(1, 8, { hand: 'right' }), '', '1-8 right']);
  });
});
