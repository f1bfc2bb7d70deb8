import { describe, expect, it } from 'vitest';
import { BEAM } from '../../src/align/costs.js';
import { follow, playingOrder } from '../../src/align/follow.js';
import { Front, MOST_ACTIVE, Trail } from '../../src/align/front.js';
import { indexTriples } from '../../src/align/landings.js';
import { layOutSlots } from '../../src/align/slots.js';
import type { Score } from '../../src/score/index.js';
import { barline, repeatEnd, repeatStart } from '../score/build.js';
import { keys, presses, score, type Key } from './build.js';
import { BAR_S, plays, tune } from './tune.js';

function path(read: Score, ...lists: readonly (readonly Key[])[]): { slots: string; jumps: number[]; worth: number } {
  const slots = layOutSlots(read);
  const { slot, jumped, worth } = follow(slots, indexTriples(slots), playingOrder(read), presses(...lists));
  return { slots: Array.from(slot, (one) => (one < 0 ? '-' : String(one))).join(' '), jumps: Array.from(jumped).flatMap((flag, i) => (flag ? [i] : [])), worth };
}

const line = tune('right');

describe('the follower', () => {
  it('earns one for each right note from the beginning', () => {
    expect(path(score(['C4 D4 E4 F4']), keys(0, 0.5, 'C4 D4 E4 F4'))).toEqual({ slots: '0 1 2 3', jumps: [0], worth: 4 });
  });

  it('passes a stray press over, and a missed note', () => {
    // a stray costs 0.8, a slot passed over 0.5
    const { slots, worth } = path(score(['C4 D4 E4 F4', 'G4 A4 B4 C5']), keys(0, 0.5, 'C4 D4 - F4 G4 A4 B4 C5'), keys(2.2, 1, 'A#5'));
    expect(slots).toBe('0 1 3 4 - 5 6 7');
    expect(worth).toBeCloseTo(7 - 0.5 - 0.8, 10);
  });

  it('is paid for tempo only beyond a factor of one and a half', () => {
    const steady = path(line, plays(1, 8, 0, { hand: 'right' })).worth;
    const swaying = path(line, plays(1, 8, 0, { hand: 'right' }).map((key) => ({ ...key, onsetS: key.onsetS + 0.06 * Math.sin(key.onsetS) }))).worth;
    expect(steady).toBe(32);
    expect(swaying).toBe(32);
  });

  it('learns no tempo from two slots struck at one moment', () => {
    // bar 3 from its third beat, both hands; the first A2 is written in bar 2 as well, which takes it astray for one press
    const both = tune();
    const late = plays(3, 6, 0).filter((key) => key.onsetS >= 1);
    const found = path(both, late);
    // slots are beats: bar 3 begins at 8
    expect(found.slots.split(' ').slice(1, 5)).toEqual(['10', '11', '11', '12']);
    expect(found.worth).toBeGreaterThan(late.length - 6);
  });

  it('jumps back where four notes and more say so', () => {
    const found = path(line, plays(1, 4, 0, { hand: 'right' }), plays(2, 8, 4 * BAR_S + 1, { hand: 'right' }));
    expect(found.jumps).toEqual([0, 16]);
    expect(found.slots.split(' ').slice(14, 19)).toEqual(['14', '15', '4', '5', '6']);
  });

  it('does not jump for one note', () => {
    // C4 of bar 1 struck instead of E5 in bar 4
    const found = path(line, plays(1, 8, 0, { hand: 'right' }).map((key) => (key.onsetS === 3.5 * BAR_S ? { ...key, pitch: 60 } : key)));
    expect(found.jumps).toEqual([0]);
    expect(found.slots.split(' ')[14]).toBe('-');
  });

  it('follows nothing where nothing is played', () => {
    expect(path(line)).toEqual({ slots: '', jumps: [], worth: 0 });
  });
});

describe('the playing order', () => {
  it('tells which bars are new, endings apart', () => {
    const ending = (number: number, type: string, more = ''): string => barline(`<ending number="${number}" type="${type}"/>${more}`, type === 'start' ? 'left' : 'right');
    const order = playingOrder(score([
      { right: 'C4/4', before: repeatStart },
      { right: 'D4/4', before: ending(1, 'start'), after: ending(1, 'stop', '<repeat direction="backward"/>') },
      { right: 'E4/4', before: ending(2, 'start'), after: ending(2, 'stop') },
      'F4/4',
    ]));
    // bars 1, 2 (first ending), 1 again, 3 (second ending), 4: new are the first and the last
    expect([...order.pass]).toEqual([1, 1, 2, 1, 1]);
    expect([...order.newBefore]).toEqual([0, 1, 1, 1, 1, 2]);
  });

  it('is all new without repeats', () => {
    expect([...playingOrder(line).newBefore]).toEqual([0, 1, 2, 3, 4, 5, 6, 7, 8]);
    expect([...playingOrder(score([{ right: 'C4/4', after: repeatEnd }, 'D4/4'])).newBefore]).toEqual([0, 1, 1, 2]);
  });
});

describe('a front of hypotheses', () => {
  it('keeps the best score of each place', () => {
    const front = new Front(4);
    expect([front.offer(2, 1), front.offer(2, 0.5), front.offer(2, 1.5), front.offer(1, 1)]).toEqual([true, false, true, true]);
    expect([front.size, front.best, front.bestSlot]).toEqual([2, 1.5, 2]);
    front.clear();
    expect([front.size, front.best, front.bestSlot]).toEqual([0, -Infinity, -1]);
    expect(front.offer(2, -3)).toBe(true);
  });

  it('gives up what lies more than a beam under the best', () => {
    const front = new Front(4);
    front.offer(0, 0.5);
    front.offer(1, 1);
    front.offer(2, 1 + BEAM);
    front.prune();
    expect([...front.active.subarray(0, front.size)].sort()).toEqual([1, 2]);
    expect(front.offer(0, -5)).toBe(true);
  });

  it('keeps so many at the most: the best, of equals the first, and the very best in any case', () => {
    const states = 2 * MOST_ACTIVE;
    const front = new Front(states);
    for (let slot = 0; slot < states; slot += 1) front.offer(slot, slot % 2);
    front.prune();
    // every odd slot scores 1: just as many as may stay
    const kept = [...front.active.subarray(0, front.size)];
    expect(kept).toHaveLength(MOST_ACTIVE);
    expect(kept.every((slot) => slot % 2 === 1)).toBe(true);
    front.clear();
    for (let slot = 0; slot < states; slot += 1) front.offer(slot, 0);
    front.offer(states - 1, 0.5);
    front.prune();
    expect(front.active[0]).toBe(states - 1);
    expect([...front.active.subarray(1, front.size)].sort((a, b) => a - b)).toEqual(Array.from({ length: MOST_ACTIVE }, (_, slot) => slot));
  });
});

describe('a trail', () => {
  it('gives back the way to its last match, however long', () => {
    const trail = new Trail();
    let last = -1;
    for (let i = 0; i < 10_000; i += 1) {
      trail.add(i, 99, last, true); // a branch that leads nowhere
      last = trail.add(i, i % 50, last, i === 7000);
    }
    const { slot, jumped, worth } = trail.path(last, 10_001, 3);
    expect([slot[0], slot[49], slot[50], slot[9999], slot[10_000]]).toEqual([0, 49, 0, 49, -1]);
    expect(Array.from(jumped).flatMap((flag, i) => (flag ? [i] : []))).toEqual([7000]);
    expect(worth).toBe(3);
  });
});
