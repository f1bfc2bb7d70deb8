import { describe, expect, it } from 'vitest';
import { leanedOn } from '../../src/judge/leanedOn.js';
import { left, right, scoreOf, TICKS } from '../measure/piece.js';
import { analysisOf } from './timePiece.js';

const place = (beat: number): { readonly tick: number; readonly barIndex: number; readonly offset: number } => ({ tick: beat * TICKS, barIndex: Math.floor(beat / 4), offset: beat % 4 });

describe('notes that players lean on', () => {
  // the tune rises to G (67) in bar 1 and leaps an octave in bar 2; the left hand leaps eleven, then twelve semitones
  const score = scoreOf([
    right(1, 1, 60), right(1, 2, 64), right(1, 3, 67), right(1, 4, 62), right(2, 1, 60), right(2, 3, 72),
    left(1, 1, 48), left(1, 3, 37), left(2, 1, 49),
  ]);
  const bare = { ...analysisOf(score), harmonies: [], phrases: [] };

  it('where a leap of an octave lands, in either hand', () => {
    expect([...leanedOn(score, bare)].sort((a, b) => a - b)).toEqual([5, 8]);
  });

  it('the high point of a phrase', () => {
    const phrases = [{ from: place(0), to: place(3), untilTick: 4 * TICKS }];
    expect(leanedOn(score, { ...bare, phrases }).has(2)).toBe(true);
    expect(leanedOn(score, { ...bare, phrases }).has(1)).toBe(false);
  });

  it('appoggiaturas and suspensions, not passing notes', () => {
    const harmony = analysisOf(score).harmonies[0];
    if (harmony === undefined) throw new RangeError('the piece has a harmony');
    const nonChordNotes = (['appoggiatura', 'suspension', 'passing'] as const).map((kind, noteIndex) => ({ noteIndex, kind, figure: null }));
    const found = leanedOn(score, { ...bare, harmonies: [{ ...harmony, nonChordNotes }] });
    expect([0, 1, 2].map((note) => found.has(note))).toEqual([true, true, false]);
  });
});
