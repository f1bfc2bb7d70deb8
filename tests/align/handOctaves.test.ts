import { describe, expect, it } from 'vitest';
import { handOctaves } from '../../src/align/handOctaves.js';
import { layOutSlots, LEFT, RIGHT } from '../../src/align/slots.js';
import type { Run } from '../../src/align/stretches.js';
import { presses } from './build.js';
import { BAR_S, plays, tune } from './tune.js';

const slots = layOutSlots(tune());

/** The run of both hands through bars 1-8: two presses a beat, left hand first. */
const run: Run = {
  firstPress: 0, lastPress: 63, presses: Array.from({ length: 64 }, (_, i) => i), slots: Array.from({ length: 64 }, (_, i) => Math.floor(i / 2)),
};

function octaves(change: (onsetS: number, right: boolean) => number): (slot: number, hand: number) => number {
  const moved = (hand: 'right' | 'left'): ReturnType<typeof plays> =>
    plays(1, 8, 0, { hand }).map((key) => ({ ...key, pitch: key.pitch + 12 * change(key.onsetS, hand === 'right') }));
  return handOctaves(slots, presses(moved('right'), moved('left')), run);
}

describe('hands an octave off', () => {
  it('are none where all is played as written', () => {
    const of = octaves(() => 0);
    expect([0, 15, 31].flatMap((slot) => [of(slot, RIGHT), of(slot, LEFT)])).toEqual([0, 0, 0, 0, 0, 0]);
  });

  it('are told apart', () => {
    const of = octaves((_, right) => (right ? 1 : 0));
    expect([0, 15, 31].map((slot) => [of(slot, RIGHT), of(slot, LEFT)])).toEqual([[1, 0], [1, 0], [1, 0]]);
  });

  it('may be so over some bars alone', () => {
    // bars 3-5 (beats 8-19) of the left hand an octave down
    const of = octaves((onsetS, right) => (!right && onsetS >= 2 * BAR_S && onsetS < 5 * BAR_S ? -1 : 0));
    // well inside and well outside: votes reach six either way
    expect([2, 13, 14, 26].map((slot) => of(slot, LEFT))).toEqual([0, -1, -1, 0]);
    expect([2, 13, 14, 26].map((slot) => of(slot, RIGHT))).toEqual([0, 0, 0, 0]);
  });

  it('are not made of single slips', () => {
    // every fourth note of the right hand
    const of = octaves((onsetS, right) => (right && onsetS % 2 === 0 ? 1 : 0));
    expect([0, 8, 16, 24].map((slot) => of(slot, RIGHT))).toEqual([0, 0, 0, 0]);
  });

  it('take six votes to say', () => {
    const up = plays(1, 2, 0, { hand: 'right' }).map((key) => ({ ...key, pitch: key.pitch + 12 }));
    const first = (count: number): number => {
      const numbers = Array.from({ length: count }, (_, i) => i);
      return handOctaves(slots, presses(up), { firstPress: 0, lastPress: count - 1, presses: numbers, slots: numbers })(0, RIGHT);
    };
    expect([first(5), first(6)]).toEqual([0, 1]);
  });

  it('are 0 for a hand without a match', () => {
    const of = handOctaves(slots, [], { firstPress: 0, lastPress: 0, presses: [], slots: [] });
    expect(of(0, RIGHT)).toBe(0);
  });
});
