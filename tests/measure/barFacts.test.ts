import { describe, expect, it } from 'vitest';
import { measureAll, TIMING_LEAST_NOTES, type BarFacts } from '../../src/measure/index.js';
import type { Piece } from '../../src/measure/piece.js';
import { analysed, left, played, right, run, scoreOf, steady, TICKS } from './piece.js';

function bars(piece: Piece): readonly BarFacts[] {
  return measureAll(analysed(piece)).bars;
}

const counts = ({ played: paired, wrong, missed, added }: BarFacts): number[] => [paired, wrong, missed, added];
const twoBars = scoreOf(run(right, 8));

describe('entries', () => {
  it('one a bar, pass and attempt, in time order', () => {
    // bars 1 2 1 2 in playing order; the pupil plays both passes, goes back to the second bar of pass 1, and goes on
    const score = scoreOf(run(right, 8), { order: [1, 2, 1, 2] });
    const all = bars(played(score, { clock: steady(0.5), visits: [0, 2] }, { clock: steady(0.5, 20), visits: [1, 3] }));
    expect(all.map((one) => [one.number, one.pass, one.attempt, one.stretch, one.visitIndex])).toEqual([
      ['1', 1, 1, 0, 0], ['2', 1, 1, 0, 1], ['1', 2, 1, 0, 2], ['2', 1, 2, 1, 1], ['1', 2, 2, 1, 2], ['2', 2, 1, 1, 3],
    ]);
    expect(all.map((one) => one.barIndex)).toEqual([0, 1, 0, 1, 0, 1]);
  });

  it('takes the attempt from the alignment where it holds a note of the bar, played or missed', () => {
    const { alignment, ...rest } = played(twoBars, { clock: steady(0.5), shiftMs: ({ barIndex }) => barIndex === 1 ? null : 0 });
    const pairs = alignment.pairs.map((pair) => ({ ...pair, attempt: 3 }));
    const missed = alignment.missed.map((miss) => ({ ...miss, attempt: 4 }));
    expect(bars({ ...rest, alignment: { ...alignment, pairs, missed } }).map((one) => one.attempt)).toEqual([3, 4]);
  });

  it('says when the bar was played: first and last onset', () => {
    // bars of four crotchets of 0.5 s, from 3 s on
    expect(bars(played(twoBars, { clock: steady(0.5, 3) })).map((one) => [one.startS, one.endS])).toEqual([[3, 4.5], [5, 6.5]]);
  });

  it('a route that leaves the score is our own mistake', () => {
    const piece = played(twoBars, { clock: steady(0.5) });
    const route = piece.alignment.route.map((stretch) => ({ ...stretch, toVisit: 2 }));
    expect(() => bars({ ...piece, alignment: { ...piece.alignment, route } })).toThrow(RangeError);
  });
});

describe('counts', () => {
  it('all played', () => expect(bars(played(twoBars, { clock: steady(0.5) })).map(counts)).toEqual([[4, 0, 0, 0], [4, 0, 0, 0]]));

  it('a missed note, and an added one near a note', () => {
    const piece = played(twoBars, { clock: steady(0.5), shiftMs: ({ index }) => index === 1 ? null : 0, presses: [{ atS: 3.2, pitch: 30, near: 6 }] });
    expect(bars(piece).map(counts)).toEqual([[3, 0, 1, 0], [4, 0, 0, 1]]);
  });

  it('a wrong note is neither missed nor added besides', () => {
    const piece = played(twoBars, { clock: steady(0.5), shiftMs: ({ index }) => index === 1 ? null : 0, presses: [{ atS: 0.5, pitch: 70, near: 1, instead: true }] });
    expect(bars(piece).map(counts)).toEqual([[3, 1, 0, 0], [4, 0, 0, 0]]);
  });

  it('a press near nothing counts in no bar; one near a note just beyond the stretch in its last bar', () => {
    const piece = played(twoBars, { clock: steady(0.5), visits: [0, 0], presses: [{ atS: 9, pitch: 30, near: null }, { atS: 1.9, pitch: 31, near: 4 }] });
    expect(bars(piece).map(counts)).toEqual([[4, 0, 0, 1]]);
  });

  it('ornament notes sound but count as nothing', () => {
    const piece = played(twoBars, { clock: steady(0.5), presses: [{ atS: 1.8, pitch: 61, near: null }] });
    const ornament = { note: piece.recording.notes.length - 1, occurrence: 0, stretch: 0 };
    const [first] = bars({ ...piece, alignment: { ...piece.alignment, added: [], ornaments: [ornament] } });
    expect(counts(first!)).toEqual([4, 0, 0, 0]);
    expect(first!.endS).toBe(1.8);
  });

  it('a bar of the route where everything was missed stands where the one before ended', () => {
    const [, second] = bars(played(twoBars, { clock: steady(0.5), shiftMs: ({ barIndex }) => barIndex === 1 ? null : 0 }));
    expect(counts(second!)).toEqual([0, 0, 4, 0]);
    expect([second!.startS, second!.endS]).toEqual([1.5, 1.5]);
    expect(second!.tempo).toEqual({ measured: false, reason: 'nothing was played in this bar' });
  });

  it('nothing played at all: the bar stands where the stretch begins', () => {
    const [first] = bars(played(twoBars, { clock: steady(0.5, 7), shiftMs: () => null }));
    expect([counts(first!), first!.startS]).toEqual([[0, 0, 4, 0], 7]);
  });
});

describe('tempo', () => {
  const tempo = (piece: Piece): (number | string)[] => bars(piece).map((one) => one.tempo.measured ? Math.round(one.tempo.value * 1000) / 1000 : one.tempo.reason);

  it('in crotchets a minute, over the bar to the next', () => {
    // 0.5 s a crotchet = 120; the last bar: three crotchets from its first to its last onset
    expect(tempo(played(twoBars, { clock: steady(0.5) }))).toEqual([120, 120]);
  });

  it('changes from bar to bar', () => {
    // first bar 4 crotchets in 2 s, second 3 crotchets in 3 s
    expect(tempo(played(twoBars, { clock: (c) => c <= 4 ? c / 2 : 2 + (c - 4) }))).toEqual([120, 60]);
  });

  it('a stop within the bar is part of it', () => {
    // 4 crotchets in 2 + 3 s = 48
    expect(tempo(played(twoBars, { clock: (c) => c / 2 + (c >= 2 ? 3 : 0) }))[0]).toBe(48);
  });

  it('to the last onset of the bar where the next begins with silence', () => {
    const score = scoreOf([...run(right, 4), right(2, 3, 60)]);
    // three crotchets in 1.5 s, though the next onset comes only 3 s after the first
    expect(tempo(played(score, { clock: steady(0.5) }))).toEqual([120, 'less than a crotchet of this bar lies between its first and last onset']);
  });

  it('both hands at one moment count with their mean', () => {
    // the left hand 0.2 s late throughout: the distance of the means is unchanged
    const score = scoreOf([...run(right, 8), ...run(left, 8)]);
    expect(tempo(played(score, { clock: steady(0.5), shiftMs: ({ staff }) => staff === 2 ? 200 : 0 }))).toEqual([120, 120]);
  });

  it('exactly one crotchet is enough, less is not', () => {
    const two = (length: number): Piece => played(scoreOf([right(1, 1, 60, length), right(1, 1 + length, 62, length)]), { clock: steady(0.5) });
    expect(tempo(two(1))).toEqual([120]);
    expect(tempo(two(0.5))).toEqual(['less than a crotchet of this bar lies between its first and last onset']);
  });

  it('all at one moment is no tempo', () => {
    expect(tempo(played(twoBars, { clock: () => 1 }))).toEqual(Array(2).fill('the bar was not played in its written order'));
  });
});

describe('timing of the hands', () => {
  it('median and spread of each, 110 ms apart', () => {
    const score = scoreOf([...run(right, 12), ...run(left, 12)]);
    const [, second] = bars(played(score, { clock: steady(0.5), shiftMs: ({ staff }) => staff === 2 ? 110 : 0 }));
    // the pulse lies between: 55 ms either way, all equal, so no spread
    for (const [hand, ms] of [[second!.right, -55], [second!.left, 55]] as const) {
      expect(hand.measured).toBe(true);
      if (!hand.measured) continue;
      expect(hand.value.notes).toBe(4);
      expect(hand.value.medianMs).toBeCloseTo(ms, 6);
      expect(hand.value.scatterMs).toBeCloseTo(0, 6);
    }
  });

  it('the spread is the scaled median absolute deviation', () => {
    // second of three bars: chords of five notes at -20, -10, 0, 10, 40 ms round their median: absolute deviations 20 10 0 10 40,
    // median 10, times 1.4826 (1 / 0.67449, the upper quartile of the normal distribution)
    const shifts = [-20, -10, 0, 10, 40];
    const chord = (bar: number, beat: number): ReturnType<typeof right>[] => shifts.map((_, i) => right(bar, beat, 60 + i));
    const score = scoreOf([1, 2, 3].flatMap((bar) => [1, 2, 3, 4].flatMap((beat) => chord(bar, beat))));
    const [, second] = bars(played(score, { clock: steady(0.5, 1), shiftMs: ({ midi }) => shifts[midi - 60]! }));
    expect(second!.right.measured && second!.right.value.notes).toBe(20);
    expect(second!.right.measured && second!.right.value.medianMs).toBeCloseTo(0, 6);
    expect(second!.right.measured && second!.right.value.scatterMs).toBeCloseTo(14.826, 6);
  });

  it('needs three measured notes', () => {
    expect(TIMING_LEAST_NOTES).toBe(3);
    const score = scoreOf([...run(right, 12), left(2, 1, 40), left(2, 2, 41), left(2, 3, 43)]);
    const withLeft = (count: number): BarFacts => bars(played(score, { clock: steady(0.5), shiftMs: ({ staff, onsetTick }) => staff === 2 && onsetTick >= (4 + count) * TICKS ? null : 0 }))[1]!;
    expect(withLeft(3).left.measured).toBe(true);
    expect(withLeft(2).left).toEqual({ measured: false, reason: 'this hand has fewer than 3 notes here whose onset could be measured' });
    expect(withLeft(0).left).toEqual({ measured: false, reason: 'this hand has no note here whose onset could be measured' });
  });
});
