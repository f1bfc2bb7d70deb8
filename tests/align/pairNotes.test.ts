/** Pairing within a run, and what is done with the presses that are left: ornaments, wrong notes, strays. */
import { describe, expect, it } from 'vitest';
import { nameLeftovers } from '../../src/align/leftovers.js';
import { ornamentPresses } from '../../src/align/ornaments.js';
import { pairNotes, type PairedRun } from '../../src/align/pairNotes.js';
import type { Press } from '../../src/align/press.js';
import { layOutSlots } from '../../src/align/slots.js';
import type { Run } from '../../src/align/stretches.js';
import { timeMapOf } from '../../src/align/timeMap.js';
import type { Score } from '../../src/score/index.js';
import { keys, presses, score, type Key } from './build.js';

const idOf = (read: Score, occurrence: number | null): string => (occurrence === null ? '' : read.notes[read.occurrences[occurrence]!.noteIndex]!.id);
const runOf = (placed: readonly (readonly [press: number, slot: number])[]): Run => ({
  firstPress: placed[0]![0], lastPress: placed.at(-1)![0], presses: placed.map(([press]) => press), slots: placed.map(([, slot]) => slot),
});
const paired = (read: Score, struck: readonly Press[], ...runs: readonly (readonly (readonly [press: number, slot: number])[])[]): PairedRun[] => pairNotes(read, layOutSlots(read), struck, runs.map(runOf));
const words = (read: Score, run: PairedRun | undefined): string =>
  [...(run?.pairs ?? [])].sort((a, b) => a.press - b.press).map((pair) => `${pair.press}:${idOf(read, pair.occurrence)}${pair.octaveSlip ? `^${pair.octaveSlip}` : ''}`).join(' ');

describe('pairing within a run', () => {
  const read = score(['C4 D4 E4 F4', 'G4 A4 B4 C5']);

  it('finds what the follower passed over, by the times that the others give', () => {
    // the follower placed presses 0, 1, 3, 4 only
    const [run] = paired(read, presses(keys(0, 0.5, 'C4 D4 E4 F4 G4')), [[0, 0], [1, 1], [3, 3], [4, 4]]);
    expect(words(read, run)).toBe('0:r1-1 1:r1-2 2:r1-3 3:r1-4 4:r2-1');
    expect([run?.firstSlot, run?.lastSlot]).toEqual([0, 4]);
  });

  it('finds notes up to six slots before and after the run', () => {
    const [run] = paired(read, presses(keys(0, 0.5, 'C4 D4 E4 F4 G4 A4 B4 C5')), [[2, 2], [3, 3], [4, 4]]);
    expect(words(read, run)).toBe('0:r1-1 1:r1-2 2:r1-3 3:r1-4 4:r2-1 5:r2-2 6:r2-3 7:r2-4');
  });

  it('pairs octave slips last, close to their time only', () => {
    // E4 an octave high at its time; A4 an octave high a quarter of a second late
    const struck = presses(keys(0, 0.5, 'C4 D4 E5 F4 G4 - B4 C5'), keys(2.75, 1, 'A5'));
    const [run] = paired(read, struck, [[0, 0], [1, 1], [3, 3], [4, 4], [6, 6], [7, 7]]);
    expect(words(read, run)).toBe('0:r1-1 1:r1-2 2:r1-3^1 3:r1-4 4:r2-1 6:r2-3 7:r2-4');
  });

  it('pairs two octaves as well', () => {
    const [run] = paired(read, presses(keys(0, 0.5, 'C4 D4 E6 F4 G2')), [[0, 0], [1, 1], [3, 3]]);
    expect(words(read, run)).toBe('0:r1-1 1:r1-2 2:r1-3^2 3:r1-4 4:r2-1^-2');
  });

  it('gives a press to one run only, and not to a run that comes later', () => {
    const struck = presses(keys(0, 0.5, 'C4 D4 E4 F4'), keys(4, 0.5, 'C4 D4 E4 F4'));
    const runs = paired(read, struck, [[0, 0], [1, 1], [2, 2], [3, 3]], [[4, 0], [5, 1], [6, 2], [7, 3]]);
    expect(runs.map((run) => words(read, run))).toEqual(['0:r1-1 1:r1-2 2:r1-3 3:r1-4', '4:r1-1 5:r1-2 6:r1-3 7:r1-4']);
  });
});

describe('a press between two runs', () => {
  it('goes to the earlier one, though the later one would take it too', () => {
    // G4 follows on the first run and leads up to the second one, which begins with A4
    const read = score(['C4 D4 E4 F4', 'G4 A4 B4 C5']);
    const struck = presses(keys(0, 0.5, 'C4 D4 E4 F4 G4 A4 B4 C5'));
    const runs = paired(read, struck, [[0, 0], [1, 1], [2, 2], [3, 3]], [[5, 5], [6, 6], [7, 7]]);
    expect(runs.map((run) => words(read, run))).toEqual(['0:r1-1 1:r1-2 2:r1-3 3:r1-4 4:r2-1', '5:r2-2 6:r2-3 7:r2-4']);
  });
});

describe('presses of an ornament', () => {
  const read = score(['C4 E4tr/2 F4', 'G4/4']);
  const slots = layOutSlots(read);
  // a crotchet lasts half a second: the trill sounds from 0.5 to 1.5 s
  const times = timeMapOf(new Map([[0, [0]], [read.ticksPerQuarter, [0.5]], [3 * read.ticksPerQuarter, [1.5]]]), 0.001);
  const taken = (...lists: readonly (readonly Key[])[]): number[] => {
    const struck = presses(...lists);
    return ornamentPresses(read, slots, times, { range: [0, slots.count - 1], presses: struck, free: struck.map((_, i) => i) }).map((one) => struck[one.press]!.key);
  };

  it('are those within a whole tone, while the note lasts', () => {
    expect(taken(keys(0.6, 0.1, 'F4 D#4 D4 F#4 E4'))).toEqual([65, 63, 62, 66, 64]);
    expect(taken(keys(0.6, 0.1, 'G4 C#4 C4'))).toEqual([]);
  });

  it('may come a quarter of a second early and 150 ms late', () => {
    // quarters of a second are exact in binary
    expect(taken(keys(0.25, 1, 'F4'))).toEqual([65]);
    expect(taken(keys(0.24, 1, 'F4'))).toEqual([]);
    expect(taken(keys(1.649, 1, 'F4'))).toEqual([65]);
    expect(taken(keys(1.66, 1, 'F4'))).toEqual([]);
  });
});

describe('presses left over', () => {
  const read = score([{ right: 'C4 D4 E4 F4', under: 'C4/4' }, 'G4 A4 B4 C5']);
  const slots = layOutSlots(read);
  const named = (struck: readonly Press[], free: readonly number[]): string[] => {
    // everything else is right: press i at slot i
    const placed = struck.flatMap((_, i) => (free.includes(i) ? [] : [[i, i] as const]));
    const [run] = pairNotes(read, slots, struck, [runOf(placed)]);
    return nameLeftovers(read, slots, run!, { presses: struck, free }).map((one) => (one.instead ? '!' : '+') + idOf(read, one.near));
  };

  it('stand for a missed note within 0.3 s and seven semitones', () => {
    expect(named(presses(keys(0, 0.5, 'C4 D4 F#4 F4 G4')), [2])).toEqual(['!r1-3']);
    // a fifth above E4 is B4, a semitone more is C5
    expect(named(presses(keys(0, 0.5, 'C4 D4 B4 F4 G4')), [2])).toEqual(['!r1-3']);
    expect(named(presses(keys(0, 0.5, 'C4 D4 C5 F4 G4')), [2])[0]).toMatch(/^\+/);
  });

  it('are named by the nearest written note where none is missed', () => {
    // 20 ms after G4, a semitone above it; press 5, in no slot's place
    const struck = presses(keys(0, 0.5, 'C4 D4 E4 F4 G4'), keys(2.02, 1, 'G#4'));
    expect(named(struck, [5])).toEqual(['+r2-1']);
  });

  it('do not stand for a voice in unison that sounded with its twin', () => {
    // C#4 right after the C4 that both voices write
    const struck = presses(keys(0, 0.5, 'C4 D4 E4 F4 G4'));
    const withStray: Press[] = [...struck, { onsetS: 0.05, key: 61 }];
    expect(named(withStray, [5])[0]).toMatch(/^\+[ru]1-1$/);
  });

  it('stand for one missed note each', () => {
    // E4 is missed; F#4 and D#4 come at its time
    const struck: Press[] = [...presses(keys(0, 0.5, 'C4 D4 F#4 F4 G4')), { onsetS: 1.01, key: 63 }];
    const words = named(struck, [2, 5]);
    expect(words[0]).toBe('!r1-3');
    expect(words[1]).toMatch(/^\+/);
  });
});
