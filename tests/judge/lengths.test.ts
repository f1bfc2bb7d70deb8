import { describe, expect, it } from 'vitest';
import type { Held, Holding } from '../measure/holdingPiece.js';
import { left, right } from '../measure/piece.js';
import { barsOf, foundOf, kinds, lengthsOf } from './heldPlayers.js';
import { inBar5, long, resting } from './plantedFaults.js';

const PLAYERS = 20;

describe('long notes', () => {
  it.each([
    ['held', 1, []],
    ['exactly half', 0.5, []],
    ['a little less than half', 0.49, ['shortNote']],
    ['a quarter', 0.25, ['shortNote']],
  ])('%s', (_, share, found) => {
    expect(kinds(lengthsOf(long(inBar5(1, share))))).toEqual(found);
  });

  it('says where and how much', () => {
    const [one] = lengthsOf(long(inBar5(1, 0.3))).observations;
    expect(one?.text).toBe('Right hand, bar 5: the long note is let go after about a third of its length.');
  });

  it('the pedal holds it', () => {
    // bar 5 is 8 s to 10 s
    expect(kinds(lengthsOf(long(inBar5(1, 0.3)), { sustain: [{ timeS: 8.2, value: 100 }, { timeS: 9.9, value: 0 }] }))).toEqual([]);
  });

  it('a key that the other hand needs cannot stay', () => {
    const notes = long(inBar5(1, 0.25)).map((note) => (note.staff === 2 && note.bar === 5 && note.beat === 2 ? { ...note, pitch: 66 + (5 % 3) } : note));
    expect(kinds(lengthsOf(notes))).toEqual([]);
  });

  it('a hand cannot hold what it cannot span: a bass two octaves below its chords', () => {
    const notes = Array.from({ length: 4 }, (_, i) => i + 1).flatMap((bar) => [
      right(bar, 1, 76, 4), { ...left(bar, 1, 36, 4), share: 0.2, voice: '2' }, ...[2, 3, 4].map((beat) => left(bar, beat, 60 + beat)),
    ]);
    expect(kinds(lengthsOf(notes))).toEqual([]);
    const near = notes.map((note) => (note.pitch === 36 ? { ...note, pitch: 55 } : note));
    expect(kinds(lengthsOf(near))).toEqual(['shortNote']);
  });

  it('a dot shortens it, and short notes are touch', () => {
    expect(kinds(lengthsOf(long(() => 0.3, { marks: ['staccato'] })))).toEqual([]);
    expect(kinds(lengthsOf(long(() => 1).map((note) => (note.staff === 2 ? { ...note, share: 0.2 } : note))))).toEqual([]);
  });

  it('inner notes that go while the others stay are told from the third time on', () => {
    const chords = (times: number) => long(() => 1).flatMap((note) => (note.staff === 1 ? [note, { ...note, pitch: note.pitch - 5, share: note.bar <= times ? 0.2 : 1 }] : [note]));
    expect(kinds(lengthsOf(chords(2)))).toEqual([]);
    expect(kinds(lengthsOf(chords(3)))).toEqual(['innerLetGo']);
  });
});

describe('ties', () => {
  // a minim at the end of bar 2, tied to a semibreve in bar 3: from 3 s to 6 s; its second note is due at 4 s
  const tied = (share: number): readonly Held[] => [right(1, 1, 72, 4), right(2, 1, 74, 2), { ...right(2, 3, 71, 2), tied: true, share }, right(3, 1, 71, 4), right(4, 1, 72, 4), ...[1, 2, 3, 4].flatMap((bar) => [left(bar, 1, 48, 2), left(bar, 3, 50, 2)])];

  it.each([
    ['held', 1, []],
    ['let go before its second note', 0.3, ['tieBroken']],
    ['let go soon after it', 0.4, ['shortNote']],
  ])('%s', (_, share, found) => {
    expect(kinds(lengthsOf(tied(share)))).toEqual(found);
  });

  it('a key let go while the pedal holds breaks no tie', () => {
    expect(kinds(lengthsOf(tied(0.3), { sustain: [{ timeS: 3.2, value: 127 }, { timeS: 5.9, value: 0 }] }))).toEqual([]);
  });

  it('struck again: named by its note and its bar', () => {
    const presses = [{ atS: 4, pitch: 71, near: 4 }];
    const judged = lengthsOf(tied(0.32), { presses });
    expect(kinds(judged)).toEqual(['tieStruckAgain']);
    expect(barsOf(judged)).toEqual([3]);
  });
});

describe('rests', () => {
  // a minim's rest of 1 s after a minim: a share of 1.5 fills half of it
  it.each([
    ['silent', 1, []],
    ['filled to a little less than half', 1.48, []],
    ['exactly half', 1.5, ['filledRest']],
    ['filled', 1.98, ['filledRest']],
  ])('%s', (_, share, found) => {
    expect(kinds(lengthsOf(resting(inBar5(1, share))))).toEqual(found);
  });

  it('a rest of one stave under the pedal is choreography of the hand', () => {
    expect(kinds(lengthsOf(resting(inBar5(1, 1.98)), { sustain: [{ timeS: 8, value: 100 }, { timeS: 9.95, value: 0 }] }))).toEqual([]);
    expect(kinds(lengthsOf(resting(() => 0.9), { sustain: [{ timeS: 0, value: 100 }] }))).toEqual([]);
  });

  const general = (share: number): readonly Held[] => resting(() => share).flatMap((note) => (note.staff === 1 ? [note] : note.beat === 1 ? [{ ...note, length: 2, share }] : []));

  it('a general rest held by both hands is told once', () => {
    const judged = lengthsOf(general(1.9));
    expect(judged.observations.map(({ kind, hand }) => [kind, hand])).toEqual([['filledRest', null]]);
    expect(judged.observations[0]?.text).toBe('Bars 1–7, both hands: the keys stay down through the rests.');
  });

  it('a general rest that the pedal fills', () => {
    expect(kinds(lengthsOf(general(0.9), { sustain: [{ timeS: 0, value: 100 }] }))).toEqual(['pedalInRest']);
    // half pedal may be damping: nothing is said
    expect(kinds(lengthsOf(general(0.9), { sustain: [{ timeS: 0, value: 63 }] }))).toEqual([]);
  });
});

describe('by the size of the fault, one bar among eight, twenty players each', () => {
  const short = (share: number) => (how: Holding) => lengthsOf(long(inBar5(0.95, share)), how);
  const filled = (share: number) => (how: Holding) => lengthsOf(resting(inBar5(0.95, share)), how);

  it.each([1, 0.85, 0.7, 0.65])('a long note at %f of its length: silent', (share) => {
    expect(foundOf(PLAYERS, (seed) => short(share)({ seed }), 'shortNote')).toBe(0);
  });

  it.each([0.33, 0.2])('a long note at %f: found', (share) => {
    expect(foundOf(PLAYERS, (seed) => short(share)({ seed }), 'shortNote')).toBeGreaterThanOrEqual(0.95 * PLAYERS);
  });

  it.each([0.8, 1, 1.1, 1.2])('a minim held for %f of its length: its rest is silent enough', (share) => {
    expect(foundOf(PLAYERS, (seed) => filled(share)({ seed }), 'filledRest')).toBe(0);
  });

  it.each([1.8, 2])('a minim held for %f of its length: its rest is filled', (share) => {
    expect(foundOf(PLAYERS, (seed) => filled(share)({ seed }), 'filledRest')).toBeGreaterThanOrEqual(0.95 * PLAYERS);
  });
});

it('nothing long and no rest: not measured', () => {
  expect(lengthsOf([right(1, 1, 60), right(1, 2, 62)]).concern).toEqual({ measured: false, reason: 'no long notes and no rests were played that could be measured' });
});
