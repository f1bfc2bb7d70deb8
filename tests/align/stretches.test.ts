import { describe, expect, it } from 'vitest';
import { undoDetours } from '../../src/align/detours.js';
import type { Path } from '../../src/align/front.js';
import { layOutSlots } from '../../src/align/slots.js';
import { cutAtJumps, cutAtLeftOutBars, type Run } from '../../src/align/stretches.js';
import { keys, presses, score, type Key } from './build.js';
import { BAR_S, plays, tune } from './tune.js';

const pathOf = (slot: readonly number[], jumps: readonly number[] = []): Path => ({
  slot: Int32Array.from(slot), jumped: Uint8Array.from(slot, (_, i) => (jumps.includes(i) ? 1 : 0)), worth: 0,
});
const runOf = (firstPress: number, slots: readonly number[]): Run => ({ firstPress, lastPress: firstPress + slots.length - 1, presses: slots.map((_, i) => firstPress + i), slots });
const range = (from: number, to: number): number[] => Array.from({ length: to - from + 1 }, (_, i) => from + i);

describe('runs', () => {
  it('are cut at jumps; presses without a slot belong to none', () => {
    const runs = cutAtJumps(pathOf([0, 1, -1, 2, 5, 6, 7], [0, 4]));
    expect(runs).toEqual([
      { firstPress: 0, lastPress: 3, presses: [0, 1, 3], slots: [0, 1, 2] },
      { firstPress: 4, lastPress: 6, presses: [4, 5, 6], slots: [5, 6, 7] },
    ]);
  });

  it('of two notes are chance, unless there is nothing else', () => {
    expect(cutAtJumps(pathOf([0, 1, 2, 8, 9, 3, 4, 5], [0, 3, 5])).map((run) => run.slots)).toEqual([[0, 1, 2], [3, 4, 5]]);
    expect(cutAtJumps(pathOf([4, 5], [0])).map((run) => run.slots)).toEqual([[4, 5]]);
    expect(cutAtJumps(pathOf([-1, -1]))).toEqual([]);
  });
});

describe('bars left out in time', () => {
  // the right hand's tune: slot = beat; bar 3 (slots 8-11) is left out
  const slots = layOutSlots(tune('right'));
  const run = runOf(0, [...range(0, 7), ...range(12, 23)]);
  const cuts = (silenceS: number): number[][] => {
    const struck = presses(plays(1, 2, 0, { hand: 'right' }), plays(4, 6, 2 * BAR_S + silenceS, { hand: 'right' }));
    return cutAtLeftOutBars(slots, struck, [run]).map((one) => [one.slots[0]!, one.slots.at(-1)!, one.firstPress, one.lastPress]);
  };

  it('make a jump of the step over them', () => {
    expect(cuts(0)).toEqual([[0, 7, 0, 7], [12, 23, 8, 19]]);
  });

  it('do so up to half as long again as the beat before needs', () => {
    // the step from beat 4 to the next bar takes half a second: cut below 0.75 s, which is 0.25 s of silence
    expect(cuts(0.2)).toHaveLength(2);
    expect(cuts(0.25)).toHaveLength(1);
  });

  it('are missed, not left out, where their time goes by', () => {
    expect(cuts(BAR_S)).toEqual([[0, 23, 0, 19]]);
  });

  it('need whole bars: half a bar is missed', () => {
    const half = runOf(0, [...range(0, 7), ...range(10, 15)]);
    const struck = presses(keys(0, 0.5, Array(14).fill('C4').join(' ')));
    expect(cutAtLeftOutBars(slots, struck, [half])).toHaveLength(1);
  });
});

describe('a detour', () => {
  // bars 1-3, then five presses said to be bar 7, then bars 5-8; the beat goes on all the while
  const slots = layOutSlots(tune('right'));
  const ticks = score(['C4/4']).ticksPerQuarter;
  const runs = [runOf(0, range(0, 11)), runOf(12, range(24, 27)), runOf(16, range(16, 31))];
  const played = (bar4: readonly Key[], afterS: number): ReturnType<typeof presses> =>
    presses(plays(1, 3, 0, { hand: 'right' }), bar4, plays(5, 8, afterS, { hand: 'right' }));

  it('is undone where the player comes back on time and straight on explains enough', () => {
    // bar 4 as written: four of four presses stand where straight on puts them
    const straight = undoDetours(slots, played(plays(4, 4, 3 * BAR_S, { hand: 'right' }), 4 * BAR_S), runs, ticks);
    expect(straight).toHaveLength(1);
    expect(straight[0]).toMatchObject({ firstPress: 0, lastPress: 31 });
    expect(straight[0]?.slots).toEqual([...range(0, 11), ...range(16, 31)]);
  });

  it('stays where straight on explains nothing', () => {
    expect(undoDetours(slots, played(keys(3 * BAR_S, 0.5, 'C#6 D#6 F#6 G#6'), 4 * BAR_S), runs, ticks)).toEqual(runs);
  });

  it('stays where the player comes back late, however well straight on would fit', () => {
    // bar 5 three seconds late: from 5.5 s to 11 s five crotchets of 1.1 s, and bar 4 is struck just so
    expect(undoDetours(slots, played(plays(4, 4, 6.6, { hand: 'right', stepS: 1.1 }), 4 * BAR_S + 3), runs, ticks)).toEqual(runs);
  });

  it('stays where the player goes back', () => {
    const back = [runOf(0, range(0, 11)), runOf(12, range(4, 31))];
    expect(undoDetours(slots, presses(plays(1, 3, 0, { hand: 'right' }), plays(2, 8, 3 * BAR_S, { hand: 'right' })), back, ticks)).toEqual(back);
  });
});
