import { describe, expect, it } from 'vitest';
import { joinFalseLandings } from '../../src/align/falseLandings.js';
import { layOutSlots } from '../../src/align/slots.js';
import type { Run } from '../../src/align/stretches.js';
import { keys, presses, score } from './build.js';

// bars 5-8 are bars 1-4 again, but for the third beat of bar 5; crotchets, so slot = beat
const BARS = ['C4 D4 E4 F4', 'G4 E4 A4 F4', 'B4 G4 C5 A4', 'D5 B4 E5 C5', 'C4 D4 F#4 F4', 'G4 E4 A4 F4', 'B4 G4 C5 A4', 'D5 B4 E5 G5'];
const written = score(BARS);
const slots = layOutSlots(written);
const range = (from: number, to: number): number[] => Array.from({ length: to - from + 1 }, (_, i) => from + i);

/** A run from one press on over these slots. */
const runFrom = (first: number, over: readonly number[]): Run => ({ firstPress: first, lastPress: first + over.length - 1, presses: over.map((_, i) => first + i), slots: over });

describe('a landing that jumps on at once', () => {
  // Something before; then bars 1 to 3 with F sharp for E, which the follower takes for bars 5 to 7; then bar 4.
  const before = keys(0, 0.5, BARS[7]!);
  const back = (pauseS: number) => [...keys(5, 0.5, `${BARS[4]!} ${BARS[5]!} ${BARS[6]!}`), ...keys(5 + 12 * 0.5 + pauseS, 0.5, BARS[3]!)];
  const runs = [runFrom(0, range(28, 31)), runFrom(4, range(16, 27)), runFrom(16, range(12, 15))];
  const joined = (pauseS: number, given: readonly Run[] = runs) => joinFalseLandings(slots, presses(before, back(pauseS)), given, written.ticksPerQuarter);

  it('is led straight to where the player really is, if nearly all of it stands there too', () => {
    // 11 of 12 notes stand in bars 1 to 3, and bar 4 follows in time: one jump instead of two
    const found = joined(0);
    expect(found.map(({ firstPress, lastPress }) => [firstPress, lastPress])).toEqual([[0, 3], [4, 19]]);
    expect(found[1]?.slots).toEqual([0, 1, 3, ...range(4, 11), ...range(12, 15)]);
    expect(found[1]?.presses).toEqual([4, 5, ...range(7, 19)]);
  });

  it('stays where the player stopped before going on: then it was a jump', () => {
    expect(joined(1.5)).toEqual(runs);
  });

  it('is none where nothing was jumped from, nor where it is short', () => {
    expect(joined(0, runs.slice(1))).toEqual(runs.slice(1));
    const short = [runFrom(0, range(28, 31)), runFrom(12, range(24, 27)), runFrom(16, range(12, 15))];
    expect(joined(0, short)).toEqual(short);
  });

  it('stays where less than three quarters of it stand on the straight way', () => {
    // the same played a semitone off in four of twelve notes: eight of twelve are two thirds
    const other = presses(before, keys(5, 0.5, `C#4 D#4 F#4 F#4 ${BARS[5]!} ${BARS[6]!}`), keys(11, 0.5, BARS[3]!));
    expect(joinFalseLandings(slots, other, runs, written.ticksPerQuarter)).toEqual(runs);
  });
});
