import { describe, expect, it } from 'vitest';
import { applyFault } from '../../src/demo/faults.js';
import type { Fault, FaultAction, FaultPlace } from '../../src/demo/plan.js';
import type { Sounding } from '../../src/demo/sounding.js';
import type { TakeNote } from '../../src/demo/take.js';

const written: Sounding = { id: '', hand: 'right', barIndex: 1, at: 0, length: 4, midi: 60, touch: 'plain', accent: false, fermata: false, inChord: 0, chordSize: 1, shortOfPair: false };

/** A key press at the given second, half a second long; `at` counts semiquavers at 0.25 s. */
function press(id: string, onsetS: number, more: Partial<TakeNote> & { sounding?: Partial<Sounding> } = {}): TakeNote {
  const { sounding, ...rest } = more;
  const note: TakeNote = {
    status: 'matched', written: { ...written, id, ...sounding }, hand: 'right', leg: 0, visit: 1, barIndex: 1, at: 0, pass: 1, attempt: 1,
    onsetS, releaseS: onsetS + 0.5, pitch: 60, velocity: 70, releaseVelocity: 64, ...rest,
  };
  return note;
}

function fault(action: FaultAction, place: Partial<FaultPlace> = {}): Fault {
  return { bars: ['1', '1'], pass: null, attempt: null, hand: 'both', what: '', ...place, ...action };
}

const onsets = (notes: readonly TakeNote[]): readonly number[] => notes.map((note) => Number(note.onsetS.toFixed(4)));

describe('faults of notes', () => {
  it('wrong: the written note is missed, another key sounds at its time', () => {
    const [missed, added] = applyFault([press('r1-1', 2)], fault({ aspect: 'notes', kind: 'wrongNote', notes: ['r1-1'], semitones: 2 }));
    expect(missed).toMatchObject({ status: 'missed', pitch: 60 });
    expect(added).toMatchObject({ status: 'added', pitch: 62, onsetS: 2, written: null });
  });

  it('missed: the note keeps its place and is silent', () => {
    expect(applyFault([press('r1-1', 2), press('r1-2', 3)], fault({ aspect: 'notes', kind: 'missedNote', notes: ['r1-2'] })).map((note) => note.status)).toEqual(['matched', 'missed']);
  });

  it('only in the attempt named', () => {
    const notes = [press('r1-1', 2), press('r1-1', 9, { attempt: 2 })];
    expect(applyFault(notes, fault({ aspect: 'notes', kind: 'missedNote', notes: ['r1-1'] }, { attempt: 2 })).map((note) => note.status)).toEqual(['matched', 'missed']);
  });

  it('added: softer, beside the note', () => {
    expect(applyFault([press('r1-1', 2)], fault({ aspect: 'notes', kind: 'addedNote', notes: ['r1-1'], semitones: -1, delayMs: 20 }))[1]).toMatchObject({ status: 'added', pitch: 59, onsetS: 2.02, velocity: 58 });
  });

  it('octave slip: the hand named only', () => {
    const notes = [press('r1-1', 2), press('l1-1', 2, { hand: 'left', pitch: 48 })];
    expect(applyFault(notes, fault({ aspect: 'notes', kind: 'octaveSlip', octaves: -1 }, { hand: 'left' })).map((note) => note.pitch)).toEqual([60, 36]);
  });

  it('a tie struck again: let go and struck with the other hand at the next bar line', () => {
    const notes = [press('r1-1', 2, { releaseS: 3.5, sounding: { tied: true } }), press('l2-1', 2.98, { hand: 'left', visit: 2, barIndex: 2 })];
    const [held, again] = applyFault(notes, fault({ aspect: 'lengths', kind: 'tieStruckAgain', notes: ['r1-1'] }));
    // 60 ms before the left hand's note
    expect(held).toMatchObject({ status: 'matched', releaseS: 2.92 });
    expect(again).toMatchObject({ status: 'added', written: null, pitch: 60, onsetS: 2.98, releaseS: 3.5 });
  });

  it('a tie cannot be struck again where the other hand is silent', () => {
    expect(() => applyFault([press('r1-1', 2)], fault({ aspect: 'lengths', kind: 'tieStruckAgain', notes: ['r1-1'] }))).toThrow(RangeError);
  });

  it('noodling: three keys 0.28 s apart and a wait of a second put the music off by 1.84 s', () => {
    const notes = applyFault([press('r1-1', 2)], fault({ aspect: 'route', kind: 'noodling', pitches: [60, 62, 64], pauseS: 1 }));
    expect(onsets(notes)).toEqual([2, 2.28, 2.56, 3.84]);
    expect(notes.map((note) => note.status)).toEqual(['added', 'added', 'added', 'matched']);
  });
});

describe('faults of time', () => {
  const three = [press('r1-1', 1), press('r2-1', 2, { barIndex: 2, visit: 2 }), press('r3-1', 3, { barIndex: 3, visit: 3 })];

  it('hesitation: the bar and all after it come later', () => {
    expect(onsets(applyFault(three, fault({ aspect: 'pulse', kind: 'hesitation', pauseS: 0.7 }, { bars: ['2', '2'] })))).toEqual([1, 2.7, 3.7]);
  });

  it('hesitation: a key held before it stays down through it', () => {
    const held = [press('r1-1', 1, { releaseS: 2.1 }), ...three.slice(1)];
    expect(applyFault(held, fault({ aspect: 'pulse', kind: 'hesitation', pauseS: 0.7 }, { bars: ['2', '2'] }))[0]?.releaseS).toBeCloseTo(2.8, 6);
  });

  it('rushed: a bar of one second takes 0.8 s, the rest comes sooner by 0.2 s', () => {
    // the bar is taken from 40 ms before its first note to 40 ms before the next bar's: 40 ms less than a fifth of that stays before the note
    const [first, second, third] = onsets(applyFault(three, fault({ aspect: 'pulse', kind: 'rushed', factor: 0.8 }, { bars: ['2', '2'] })));
    expect(first).toBe(1);
    expect(second).toBeCloseTo(2 - 0.2 * 0.04, 4);
    expect(third).toBeCloseTo(2.8, 4);
  });

  it('even dots: the short note moves from three quarters to the middle', () => {
    const pair = [press('r1-1', 1, { releaseS: 1.78 }), press('r1-2', 1.75, { at: 3, sounding: { shortOfPair: true } }), press('r1-3', 2, { at: 4 })];
    const even = applyFault(pair, fault({ aspect: 'rhythm', kind: 'evenDots' }));
    expect(onsets(even)).toEqual([1, 1.5, 2]);
    // the long note overlaps the short one by 30 ms before and after
    expect(even[0]?.releaseS).toBeCloseTo(1.53, 6);
  });

  it('uneven runs: every second semiquaver late by three tenths, the one before held until then', () => {
    const run = [0, 1, 2, 3].map((at) => press(`r1-${String(at + 1)}`, 1 + at * 0.25, { at, releaseS: 1.27 + at * 0.25, sounding: { length: 1 } }));
    const uneven = applyFault(run, fault({ aspect: 'rhythm', kind: 'unevenRuns', share: 0.3 }));
    // 0.3 × 0.25 s = 75 ms
    expect(onsets(uneven)).toEqual([1, 1.325, 1.5, 1.825]);
    expect(uneven[0]?.releaseS).toBeCloseTo(1.345, 6);
    expect(uneven[1]?.releaseS).toBeCloseTo(1.52, 6);
  });

  it('late hand: onset and release by as much', () => {
    const [note] = applyFault([press('l1-1', 1, { hand: 'left' })], fault({ aspect: 'rhythm', kind: 'handLate', lateMs: 90 }, { hand: 'left' }));
    expect(note?.onsetS).toBeCloseTo(1.09, 6);
    expect(note?.releaseS).toBeCloseTo(1.59, 6);
  });
});

describe('faults of touch, lengths, levels', () => {
  it('staccato held: nine tenths of the time to the next onset of the hand', () => {
    const notes = [press('l1-1', 1, { hand: 'left', sounding: { touch: 'staccato' } }), press('l1-2', 2, { hand: 'left', at: 4 })];
    expect(applyFault(notes, fault({ aspect: 'touch', kind: 'staccatoHeld', ratio: 0.9 }))[0]?.releaseS).toBeCloseTo(1.9, 6);
  });

  it('slur detached: legato notes only, not half of the way to the next', () => {
    const notes = [press('r1-1', 1, { sounding: { touch: 'legato' } }), press('r1-2', 2, { at: 4 })];
    expect(applyFault(notes, fault({ aspect: 'touch', kind: 'slurDetached', ratio: 0.45 })).map((note) => Number((note.releaseS - note.onsetS).toFixed(4)))).toEqual([0.45, 0.5]);
  });

  it('rest filled: held until the hand plays again, in the next bar', () => {
    const notes = [press('l1-3', 1, { hand: 'left' }), press('r1-4', 1.5, { at: 6 }), press('l2-1', 2.2, { hand: 'left', visit: 2, barIndex: 2 })];
    expect(applyFault(notes, fault({ aspect: 'lengths', kind: 'restFilled', notes: ['l1-3'] }))[0]?.releaseS).toBe(2.2);
  });

  it('sticks out: the note named only, never above 124', () => {
    const notes = [press('r1-1', 1, { velocity: 110 }), press('r1-2', 2, { velocity: 60 })];
    expect(applyFault(notes, fault({ aspect: 'dynamics', kind: 'sticksOut', notes: ['r1-1'], by: 30 })).map((note) => note.velocity)).toEqual([124, 60]);
  });

  it('cut short: half of what it would have lasted', () => {
    expect(applyFault([press('r1-1', 1)], fault({ aspect: 'lengths', kind: 'cutShort', notes: ['r1-1'], ratio: 0.5 }))[0]?.releaseS).toBeCloseTo(1.25, 6);
  });

  it('flat: levels drawn to the mean of the hand', () => {
    // mean of 60 and 80 is 70; a quarter of ±10 is left, rounded
    const notes = [press('r1-1', 1, { velocity: 60 }), press('r1-2', 2, { velocity: 80 })];
    expect(applyFault(notes, fault({ aspect: 'dynamics', kind: 'flat', keep: 0.25 })).map((note) => note.velocity)).toEqual([68, 73]);
  });

  it('left hand too loud: never above 124', () => {
    const notes = [press('l1-1', 1, { hand: 'left', velocity: 50 }), press('l1-2', 2, { hand: 'left', velocity: 110 }), press('r1-1', 1, { velocity: 50 })];
    expect(applyFault(notes, fault({ aspect: 'balance', kind: 'leftTooLoud', by: 20 })).map((note) => note.velocity)).toEqual([70, 124, 50]);
  });

  it('lost bass: the first left-hand note of the bar only, 0.16 s', () => {
    const notes = [press('l1-1', 1, { hand: 'left' }), press('l1-2', 2, { hand: 'left', at: 2 })];
    expect(applyFault(notes, fault({ aspect: 'pedal', kind: 'bassNotCaught' }, { hand: 'left' })).map((note) => Number((note.releaseS - note.onsetS).toFixed(4)))).toEqual([0.16, 0.5]);
  });
});
