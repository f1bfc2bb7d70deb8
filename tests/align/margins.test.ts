import { describe, expect, it } from 'vitest';
import { reachOfRun } from '../../src/align/margins.js';
import { layOutSlots } from '../../src/align/slots.js';
import { keys, match, missed, said, score } from './build.js';
import { BAR_S, CROTCHET_S, names, plays, tune } from './tune.js';

describe('how far a run reaches beyond the matches of the follower', () => {
  // slot = beat; the run's own slots are 8 to 11
  const slots = layOutSlots(tune('right'));
  const reach = (...found: readonly number[]): readonly [number, number] =>
    reachOfRun(slots, { own: [8, 11], most: [2, 17], found: (slot) => slot >= 8 && slot <= 11 || found.includes(slot) });

  it('is as far as what is found outweighs what is passed over', () => {
    expect(reach()).toEqual([8, 11]);
    expect(reach(7, 12)).toEqual([7, 12]);
    // one slot passed over: 1 - 0.5 > 0
    expect(reach(6, 13)).toEqual([6, 13]);
    // two: 1 - 2 × 0.5 = 0 is no gain
    expect(reach(5, 14)).toEqual([8, 11]);
    // 2 × 1 - 2 × 0.5 = 1, but the nearer one alone is worth as much: 1
    expect(reach(7, 4, 12, 15)).toEqual([7, 12]);
    // 2 - 1 × 0.5 = 1.5 is more than 1
    expect(reach(7, 5, 12, 14)).toEqual([5, 14]);
  });

  it('counts a slot of the hand that does not play for next to nothing', () => {
    // crotchets of the right hand between two left-hand notes: slots 0 (both), 1-3 (right), 4 (both)
    const both = layOutSlots(score([{ right: 'C5 D5 E5 F5', left: 'C3/4' }, { right: 'G5 F5 E5 D5', left: 'G2/4' }]));
    const leftOnly = { own: [4, 4], most: [0, 7], found: (slot: number) => slot === 0 || slot === 4 } as const;
    // slot 4 holds both hands' notes, so both hands play there: 1 - 3 × 0.5 < 0
    expect(reachOfRun(both, leftOnly)).toEqual([4, 4]);
    // three slots of the left hand alone before: 1 - 3 × 0.04 > 0
    const apart = layOutSlots(score([{ right: 'C5 r/3', left: 'r C3 D3 E3' }, { right: 'G5/4', left: 'r/4' }]));
    expect(reachOfRun(apart, { own: [4, 4], most: [0, 4], found: (slot) => slot === 0 || slot === 4 })).toEqual([0, 4]);
  });
});

describe('a slip before going back', () => {
  // The player breaks off on beat 2 of bar 6 with D4 for F4, waits three crotchets and goes back to bar 2. D4 stands three
  // crotchets before bar 2: it must not make of bar 1 a bar that was played again.
  const slipS = 5 * BAR_S + CROTCHET_S;
  const played = [
    ...plays(1, 5, 0, { hand: 'right' }), ...plays(6, 6, 5 * BAR_S, { hand: 'right' }).slice(0, 1), ...keys(slipS, CROTCHET_S, 'D4'),
    ...plays(2, 8, slipS + 3 * CROTCHET_S, { hand: 'right' }),
  ];
  const matched = match(tune('right'), played);

  it('is a wrong note of the bar that was broken off', () => {
    const again = names(2, 5, { hand: 'right', attempt: 2 });
    // bar 6 was begun before, bars 7 and 8 were not
    const on = `${names(6, 6, { hand: 'right', attempt: 2 })} ${names(7, 8, { hand: 'right' })}`;
    expect(said(matched)).toBe(`${names(1, 5, { hand: 'right' })} r6-1 !r6-2 ${again} ${on}`);
    expect(missed(matched)).toBe('r6-2');
  });
});
