import { describe, expect, it } from 'vitest';
import { ranksOf } from '../../src/measure/ranks.js';
import { struckNotes } from '../../src/measure/struck.js';
import { unspokenNotes, type Unspoken } from '../../src/measure/unspoken.js';
import type { Occurrence } from '../../src/score/index.js';
import { barOf, struck } from './loudness.js';
import { played, right, scoreOf, steady, type Played, type Written } from './piece.js';

/** Eight bars of chords of three; bars 1-4 loud, 5-8 soft. */
const chords: Written[] = Array.from({ length: 32 }, (_, i) => [60, 64, 67].map((pitch) => right(1 + Math.floor(i / 4), 1 + (i % 4), pitch))).flat();
const level = (one: Occurrence): number => (barOf(one) <= 6 ? 80 : 35);

function found(how: Omit<Played, 'clock'>, velocityOf = level): readonly Unspoken[] {
  const piece = struck(played(scoreOf(chords), { clock: steady(0.5), ...how }), velocityOf);
  const notes = struckNotes(piece);
  return unspokenNotes(piece, notes, ranksOf(notes.notes.map(({ velocity }) => velocity)));
}

/** Misses one note of the chord on the first beat of a bar. */
const missing = (bar: number, pitch: number): Omit<Played, 'clock'> => ({ shiftMs: (one) => (barOf(one) === bar && one.onsetTick % 1920 === 0 && one.midi === pitch ? null : 0) });

describe('a note that did not speak', () => {
  it('is an inner or lower one of a soft chord', () => {
    expect(found(missing(7, 64)).map(({ kind, hand, visitIndex, startS }) => [kind, hand, visitIndex, startS])).toEqual([['silent', 'right', 6, 12]]);
    expect(found(missing(7, 60))).toHaveLength(1);
  });

  it('not the top, not one of a loud chord, not a chord that was left out', () => {
    expect(found(missing(7, 67))).toEqual([]);
    expect(found(missing(2, 64))).toEqual([]);
    expect(found({ shiftMs: (one) => (barOf(one) === 7 && one.onsetTick % 1920 === 0 ? null : 0) })).toEqual([]);
  });
});

describe('a split note', () => {
  // the second chord of bar 2 is struck at 2.5 s; a semitone over its top
  const along = (atS: number, pitch: number, instead = false): readonly string[] => found({ presses: [{ atS, pitch, near: 15, instead }] }).map(({ kind }) => kind);

  it('is a softer press within 50 ms, a semitone or a tone away: the press is at 64, the chord at 80', () => {
    expect([along(2.5, 68), along(2.55, 69), along(2.551, 68), along(2.5, 70)]).toEqual([['split'], ['split'], [], []]);
  });

  it('not one that stands for a written note, nor one as loud', () => {
    expect(along(2.5, 68, true)).toEqual([]);
    expect(found({ presses: [{ atS: 2.5, pitch: 68, near: 15 }] }, () => 73)).toEqual([]);
    expect(found({ presses: [{ atS: 2.5, pitch: 68, near: 15 }] }, () => 74)).toHaveLength(1);
  });
});
