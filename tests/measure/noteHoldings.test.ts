import { describe, expect, it } from 'vitest';
import type { Measured } from '../../src/base/index.js';
import { noteHoldings } from '../../src/measure/noteHoldings.js';
import { restruckTies } from '../../src/measure/restruckTies.js';
import { silences } from '../../src/measure/silences.js';
import { soundEnds } from '../../src/measure/soundEnds.js';
import { heldPiece, ticks, type Held, type Holding } from './holdingPiece.js';
import { left, right } from './piece.js';

/** The value; a test that asks for one that is not there fails. */
function valueOf<T>(value: Measured<T> | undefined): T {
  if (value?.measured !== true) throw new RangeError(value === undefined ? 'no value' : value.reason);
  return value.value;
}

const holdings = (notes: readonly Held[], how: Holding = {}) => noteHoldings(heldPiece(notes, how));

// a crotchet lasts 0.5 s in all that follows
describe('key overlap time, overlap ratio and key-down ratio (definitions of Repp 1995 and of Bresin and Battel 2000)', () => {
  it.each([
    // release of the first note at share × 0.5 s, onset of the second at 0.5 s:
    // KOT = release − 0.5, KOR = KOT / 0.5, KDR = release / 0.5
    ['overlapping', 1.1, [0.05, 0.1, 1.1]],
    ['detached', 0.6, [-0.2, -0.4, 0.6]],
    ['exactly joined', 1, [0, 0, 1]],
    ['staccato as Bresin and Battel (2000) found it, about 40 % of the interval', 0.4, [-0.3, -0.6, 0.4]],
  ])('%s', (_, share, expected) => {
    const [first] = holdings([{ ...right(1, 1, 60), share }, right(1, 2, 62), right(1, 3, 64)]);
    const join = valueOf(first?.join);
    const found = [join.overlapS, join.overlapS / join.intervalS, valueOf(first?.length).keyS / join.intervalS];
    expect(found.map((one) => Number(one.toFixed(9)) + 0)).toEqual(expected);
  });

  it('a note struck again at once says so: it can never overlap', () => {
    const [first, second] = holdings([{ ...right(1, 1, 60), share: 0.6 }, right(1, 2, 60), right(1, 3, 64)]);
    expect([valueOf(first?.join).repeated, valueOf(second?.join).repeated]).toEqual([true, false]);
  });

  it('after a rest nothing is joined', () => {
    const [first] = holdings([right(1, 1, 60), right(1, 3, 62), right(1, 4, 64)]);
    expect(first?.join).toEqual({ measured: false, reason: 'no note of its voice follows at once' });
  });
});

describe('written lengths in seconds', () => {
  it.each([
    // crotchet = 0.5 s; a dot adds a half, a double dot three quarters; a triplet quaver is two thirds of a quaver
    ['dotted crotchet', 1.5, 0.75],
    ['double-dotted crotchet', 1.75, 0.875],
    ['double-dotted minim', 3.5, 1.75],
    ['triplet quaver', 1 / 3, 1 / 6],
  ])('%s', (_, crotchets, seconds) => {
    const [first] = holdings([right(1, 1, 60, crotchets), right(1, 1 + crotchets, 62, 0.25), right(2, 1, 64)]);
    expect(valueOf(first?.length).writtenS).toBeCloseTo(seconds, 9);
  });

  it('a tie is one length: a minim tied to a crotchet over the bar line lasts 3 × 0.5 s', () => {
    const [, tied] = holdings([right(1, 1, 60, 2), { ...right(1, 3, 62, 2), tied: true }, right(2, 1, 62), right(2, 2, 64)]);
    expect(valueOf(tied?.length).writtenS).toBeCloseTo(1.5, 9);
  });

  it('a key that the other voice needs after a crotchet is asked for no more than that', () => {
    const [first] = holdings([{ ...right(1, 1, 60, 4), share: 0.25 }, left(1, 2, 60), left(1, 3, 42), left(2, 1, 43)]);
    expect(valueOf(first?.length).writtenS).toBeCloseTo(0.5, 9);
  });

  it.each([
    ['a fermata', { ...right(1, 1, 60), fermata: true }, 'a fermata leaves open how long the note is held'],
    ['a trill', { ...right(1, 1, 60), kind: 'trill' as const }, 'an ornament leaves open how long its written note is held'],
  ])('%s leaves the end open', (_, note, reason) => {
    const found = holdings([note, right(1, 2, 62), right(1, 3, 64), right(1, 4, 65)]).find(({ length }) => !length.measured);
    expect(found?.length).toEqual({ measured: false, reason });
  });

  it('a key that comes back without a written note within 0.1 s only bounced; later, it was struck again', () => {
    const notes = [{ ...right(1, 1, 60, 4), share: 0.1 }, right(2, 1, 62), right(2, 2, 64)];
    // written 2 s, released at 0.2 s; the press lasts 0.3 s
    const bounced = holdings(notes, { presses: [{ atS: 0.3, pitch: 60, near: 0 }] })[0];
    expect(valueOf(bounced?.length).keyS).toBeCloseTo(0.6, 9);
    const again = holdings(notes, { presses: [{ atS: 0.31, pitch: 60, near: 0 }] })[0];
    expect(again?.length).toEqual({ measured: false, reason: 'its key was struck again before its end was due' });
  });
});

describe('by the ear: key and pedals', () => {
  const notes = [{ ...right(1, 1, 60, 4), share: 0.15 }, right(2, 1, 62), right(2, 2, 64)];
  // the key is up after 0.3 s of 2 s; a pedal pressed at 0.1 s and lifted at 1.5 s
  const pedal = (value: number) => [{ timeS: 0.1, value }, { timeS: 1.5, value: 0 }];

  it.each([
    ['fully down', 127, 1.5],
    ['at 64, down by MIDI 1.0', 64, 1.5],
    ['at 63: half pedal counts as sound for a held note', 63, 1.5],
    ['at 32, the least half pedal', 32, 1.5],
    ['at 31, up', 31, 0.3],
  ])('sustain pedal %s', (_, value, soundS) => {
    const length = valueOf(holdings(notes, { sustain: pedal(value) })[0]?.length);
    expect([length.keyS, length.soundS].map((one) => Number(one.toFixed(6)))).toEqual([0.3, soundS]);
  });

  it('the strict reading does not count half pedal', () => {
    const { recording } = heldPiece(notes, { sustain: pedal(63) });
    expect(soundEnds(recording, 64)[0]).toBeCloseTo(0.3, 9);
  });

  it('sostenuto holds what was down when it was pressed, and nothing else (MIDI 1.0, controller 66)', () => {
    expect(valueOf(holdings(notes, { sostenuto: pedal(127) })[0]?.length).soundS).toBeCloseTo(1.5, 9);
    expect(valueOf(holdings(notes, { sostenuto: [{ timeS: 0.4, value: 127 }, { timeS: 1.5, value: 0 }] })[0]?.length).soundS).toBeCloseTo(0.3, 9);
  });

  it('a pedal pressed after the key is up catches nothing', () => {
    expect(valueOf(holdings(notes, { sustain: [{ timeS: 0.4, value: 127 }] })[0]?.length).soundS).toBeCloseTo(0.3, 9);
  });
});

describe('rests', () => {
  // right hand: a crotchet, two crotchets' rest, a crotchet; left hand plays on or rests too
  const rests = (share: number, how: Holding = {}, alone = false) => silences(heldPiece([{ ...right(1, 1, 72), share }, right(1, 4, 74), right(2, 1, 76), ...(alone ? [] : [left(1, 1, 48), left(1, 2, 50), left(1, 3, 52), left(1, 4, 53), left(2, 1, 55)])], how));

  it('lies between the written end and the next onset: 0.5 s to 1.5 s', () => {
    expect(rests(1)).toMatchObject([{ staff: 1, fromTick: ticks(1), toTick: ticks(3), fromS: 0.5, toS: 1.5, heldS: 0, soundS: 0 }]);
  });

  it('a key held for 2.5 crotchets fills 0.75 s of it', () => {
    const [rest] = rests(2.5);
    expect(rest?.heldS).toBeCloseTo(0.75, 9);
    expect(rest?.soundS).toBeCloseTo(0.75, 9);
  });

  it('a pedal fills it by ear alone', () => {
    const [rest] = rests(0.8, { sustain: [{ timeS: 0, value: 127 }, { timeS: 1.25, value: 0 }] });
    expect([rest?.heldS, rest?.soundS, rest?.pedal]).toEqual([0, 0.75, 127]);
  });

  it('where every stave rests, there is a general rest besides', () => {
    expect(rests(1, {}, true).map(({ staff }) => staff)).toEqual([1, null]);
  });
});

describe('ties struck again', () => {
  const notes: readonly Held[] = [{ ...right(1, 1, 60, 4), tied: true }, right(2, 1, 60, 2), right(2, 3, 62), right(2, 4, 64)];
  // bar 2 begins at 2 s; the tied minim ends at 3 s, half of it is 0.5 s
  it.each([
    ['on the second note', 2, [1]],
    ['a little before', 1.6, [1]],
    ['exactly half of the tied note before', 1.5, [1]],
    ['long before: a note of its own', 1.2, []],
  ])('%s', (_, atS, tied) => {
    const piece = heldPiece(notes.map((note, i) => (i === 0 ? { ...note, share: 0.15 } : note)), { presses: [{ atS, pitch: 60, near: 0 }] });
    expect(restruckTies(piece).map((one) => one.tied)).toEqual(tied);
  });
});
