import { describe, expect, it } from 'vitest';
import type { Measured } from '../../src/base/index.js';
import { measureAll, type EvenRun, type RhythmFacts } from '../../src/measure/index.js';
import { variationButLilt, variationOf } from '../../src/measure/evenRuns.js';
import { AWKWARD } from './awkward.js';
import { analysed, left, played, right, run, scoreOf, steady, TICKS, type Played, type Written } from './piece.js';

type Options = Parameters<typeof scoreOf>[1];

function rhythm(written: readonly Written[], how: Partial<Played> = {}, options: Options = {}): RhythmFacts {
  return measureAll(analysed(played(scoreOf(written, options), { clock: steady(0.5), ...how }))).rhythm;
}

describe('hands together', () => {
  const both = [...run(right, 8), ...run(left, 8)];

  it('left minus right at every tick both strike, ms', () => {
    const facts = rhythm(both, { shiftMs: ({ staff }) => staff === 2 ? 50 : 0 });
    expect(facts.hands).toHaveLength(8);
    for (const { leftLateMs } of facts.hands) expect(leftLateMs).toBeCloseTo(50, 6);
    for (const { apart } of facts.bars) expect(apart).toMatchObject({ measured: true, value: { moments: 4, scatterMs: expect.closeTo(0, 6) as number } });
  });

  it('how far that is of the way to the next stroke of the hand that came first', () => {
    // crotchets of 500 ms: 50 ms are a tenth; the last has nothing after it
    for (const [ms, share] of [[50, 0.1], [-125, 0.25]] as const) {
      const { hands } = rhythm(both, { shiftMs: ({ staff }) => staff === 2 ? ms : 0 });
      for (const { ofStep } of hands.slice(0, -1)) expect(ofStep).toBeCloseTo(share, 6);
      expect(hands.at(-1)?.ofStep).toBeNull();
    }
  });

  it('median and scatter of a bar: 0, 20, 40 and 100 ms', () => {
    // median (20 + 40) / 2 = 30; distances from it 30, 10, 10, 70, their median 20; times 1.4826
    const facts = rhythm(both, { shiftMs: ({ staff, onsetTick }) => staff === 2 ? [0, 20, 40, 100][(onsetTick / TICKS) % 4]! : 0 });
    expect(facts.bars[0]?.apart).toEqual({ measured: true, value: { moments: 4, medianMs: expect.closeTo(30, 6) as number, scatterMs: expect.closeTo(29.652, 3) as number } });
  });

  it('of one hand, or of two moments, nothing is said', () => {
    expect(rhythm(run(right, 4)).bars[0]?.apart).toMatchObject({ measured: false, reason: expect.stringMatching(/nothing together/) as string });
    expect(rhythm([...run(right, 4), left(1, 1, 40), left(1, 3, 40)]).bars[0]?.apart).toMatchObject({ measured: false, reason: expect.stringMatching(/fewer than 3/) as string });
  });

  it('a moment with grace notes, an ornament or a roll is none', () => {
    for (const kind of ['trill', 'rolled'] as const) expect(rhythm([{ ...right(1, 1, 60), kind }, left(1, 1, 40), right(1, 2, 62)]).hands).toEqual([]);
    expect(rhythm([right(1, 1, 60), { ...right(1, 1, 62), kind: 'grace' }, left(1, 1, 40), right(1, 2, 62)]).hands).toEqual([]);
  });
});

describe('chords', () => {
  const chord = [right(1, 1, 60), right(1, 1, 64), right(1, 1, 67)];
  const apart = (ms: readonly number[]): RhythmFacts['chords'] => rhythm(chord, { shiftMs: ({ index }) => ms[index]! }).chords;

  it('from first to last, ms; from the bottom up it is rolled', () => {
    expect(apart([0, 20, 45])).toMatchObject([{ spreadMs: expect.closeTo(45, 6) as number, rolled: true }]);
    expect(apart([20, 0, 45])).toMatchObject([{ spreadMs: expect.closeTo(45, 6) as number, rolled: false }]);
    expect(apart([0, 9, 40])[0]?.rolled).toBe(false); // 9 ms from one to the next is no step of a roll
  });
});

describe('runs', () => {
  it('the variation is the scatter about the line of the distances', () => {
    // 1.1 0.9 1 0.9 1.1: level line at 1, squares 4 * 0.01, three degrees of freedom: sqrt(0.04 / 3) = 0.11547
    expect(variationOf([1.1, 0.9, 1, 0.9, 1.1])).toBeCloseTo(0.11547, 5);
    expect(variationOf([1, 1.1, 1.2, 1.3, 1.4])).toBeCloseTo(0, 9); // a run that slows evenly is even
  });

  it('Jabusch (2006): 8.1 ms of scatter at 125 ms are 6.5 %', () => {
    // with 125 and d off, as above: sqrt(4 d^2 / 3) = 8.1 for d = 7.0148
    const d = 7.0148;
    expect(variationOf([125 + d, 125 - d, 125, 125 - d, 125 + d])).toBeCloseTo(0.065, 3);
  });

  const runs = (count: number, length: number, how: Partial<Played> = {}): readonly EvenRun[] => rhythm(run(right, count, length), how).runs;

  it('one a bar, up to the first note of the next', () => {
    const found = runs(33, 0.25); // two bars of semiquavers and one note more
    expect(found.map(({ fromVisit, fromTick, toTick }) => [fromVisit, fromTick / TICKS, toTick / TICKS])).toEqual([[0, 0, 4], [1, 4, 8]]);
    for (const one of found) {
      expect(one.intervalMs).toBeCloseTo(125, 6);
      expect(one.variation).toBeCloseTo(0, 6);
      expect(one.lilt).toBeCloseTo(0.5, 6);
    }
  });

  it('a limp shows as a lilt: every second of two semiquavers 25 ms late takes 150 and 100 ms', () => {
    for (const { lilt } of runs(33, 0.25, { shiftMs: ({ index }) => index % 2 === 1 ? 25 : 0 })) expect(lilt).toBeCloseTo(0.6, 6);
  });

  it('one wait in a run is left out of the second figure', () => {
    const [first] = runs(17, 0.25, { clock: (c) => 0.5 * c + (c >= 2 ? 0.3 : 0) });
    expect(first?.variation).toBeGreaterThan(0.3);
    expect(first?.variationButLilt).toBeCloseTo(0, 6);
  });

  it('a lilt is, too: 150 100 150 100 150 100', () => {
    expect(variationButLilt([150, 100, 150, 100, 150, 100])).toBeCloseTo(0, 9);
    // 140 110 130 120 150 100: lilt of neighbours (15, 10, 5, 15, 25) middle 15: 125 125 115 135 135 115, one of the furthest (115) left out; not even
    expect(variationButLilt([140, 110, 130, 120, 150, 100])).toBeGreaterThan(0.04);
  });

  it('five notes, crotchets, and notes of several values are none', () => {
    expect(runs(5, 0.25)).toEqual([]);
    expect(runs(16, 1)).toEqual([]);
    expect(rhythm([0, 0.25, 0.5, 1, 1.25, 1.5, 2].map((at) => right(1, 1 + at, 60, 0.25))).runs).toEqual([]);
  });
});

describe('beats', () => {
  /** A minim on the third beat of bar 2 among crotchets; the left hand counts along or not. */
  const minim = [...run(right, 6), right(2, 3, 70, 2), ...run(right, 8).map((one) => ({ ...one, bar: one.bar + 2 }))];
  const cutBy = (beats: number): Partial<Played> => ({ clock: (c) => 0.5 * (c >= 8 ? c - beats : c) });
  const ofMinim = (facts: RhythmFacts): RhythmFacts['distances'] => facts.distances.filter(({ hand, fromTick }) => hand === 'right' && fromTick === 6 * TICKS);

  it.each([[0, 2], [1, 1], [0.5, 1.5], [-1, 3]])('a minim cut by %d beats has %d', (cut, has) => {
    expect(ofMinim(rhythm(minim, cutBy(cut)))).toMatchObject([{ writtenBeats: 2, playedBeats: expect.closeTo(has, 6) as number, lateBeats: null, rest: false, filled: false }]);
  });

  it('a rest is told from a held note', () => {
    expect(ofMinim(rhythm(minim.map((one) => one.length === 2 ? { ...one, length: 1 } : one)))).toMatchObject([{ writtenBeats: 2, rest: true }]);
  });

  it('one hand a beat early against the other that counts', () => {
    const facts = rhythm([...minim, ...run(left, 16)], { shiftMs: ({ staff, onsetTick }) => staff === 1 && onsetTick >= 8 * TICKS ? -500 : 0 });
    expect(ofMinim(facts)).toMatchObject([{ lateBeats: expect.closeTo(-1, 6) as number, filled: true }]);
  });

  it('a step halved and one doubled, by the tempo of two bars around', () => {
    // crotchets of 0.5 s, the fifth 0.25 s, the eighth 1 s
    const clock = (c: number): number => 0.5 * c - (c >= 5 ? 0.25 : 0) + (c >= 8 ? 0.5 : 0);
    expect(rhythm(run(right, 16), { clock }).steps.map(({ times }) => Math.round(times * 100) / 100)).toEqual([1, 1, 1, 1, 0.5, 1, 1, 2, 1, 1, 1, 1, 1, 1, 1]);
    expect(rhythm(run(right, 16), { clock }).bars[1]?.steps).toMatchObject({ measured: true, value: expect.closeTo(2 ** 0.5, 6) as number }); // half, one, one and two: half an octave of time on average
  });

  it('which beats a hand is late on', () => {
    const facts = rhythm([...run(right, 32), ...run(left, 64, 0.5)], { shiftMs: ({ staff, onsetTick }) => staff === 1 && (onsetTick / TICKS) % 4 === 1 ? 40 : 0 });
    const late = facts.bars[3]?.right ?? [];
    expect(late.map(({ beat, on }) => [beat, on])).toEqual([[1, true], [2, true], [3, true], [4, true]]);
    expect(late[1]!.medianMs - late[0]!.medianMs).toBeGreaterThan(30);
    expect(facts.bars[3]?.left.map(({ beat, on }) => [beat, on])).toEqual([1, 2, 3, 4].flatMap((beat) => [[beat, true], [beat, false]]));
  });
});

describe('grace notes', () => {
  const graced = [right(1, 1, 60), { ...right(1, 2, 64), kind: 'grace' } as const, right(1, 2, 62), left(1, 2, 40), right(1, 3, 65)];

  it('how long they take, and how much of it before the other hand', () => {
    const facts = rhythm(graced, { shiftMs: (one) => one.endTick === one.onsetTick ? -80 : one.midi === 62 ? 20 : 0 });
    expect(facts.graces).toMatchObject([{ count: 1, slash: true, leadMs: expect.closeTo(100, 6) as number, beforeMs: expect.closeTo(80, 6) as number }]);
  });
});

/** Every number in a record finite. */
function expectFinite(value: unknown): void {
  if (typeof value === 'number') expect(Number.isFinite(value)).toBe(true);
  else if (typeof value === 'object' && value !== null) Object.values(value).forEach(expectFinite);
}

describe.each(AWKWARD)('$name', ({ piece }) => {
  it('one entry a visit, every number finite, every reason a clause', () => {
    const { bars, rhythm: facts } = measureAll(analysed(piece));
    expect(facts.bars).toHaveLength(bars.length);
    expectFinite(facts);
    const reasons: Measured<unknown>[] = facts.bars.flatMap(({ apart, steps }) => [apart, steps]);
    for (const one of reasons) if (!one.measured) expect(one.reason).toMatch(/^[a-z].{10,}[^.]$/);
  });
});
