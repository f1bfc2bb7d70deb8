import { describe, expect, it } from 'vitest';
import { measureAll, type RhythmFacts, type RhythmFigure } from '../../src/measure/index.js';
import type { Score } from '../../src/score/index.js';
import { analysed, left, played, right, scoreOf, steady, TICKS, type Clock, type Played, type Written } from './piece.js';

function rhythm(written: readonly Written[], how: Partial<Played> = {}, beats = 4): RhythmFacts {
  const score = onWholeTicks(scoreOf(written, { beats }));
  return measureAll(analysed(played(score, { clock: steady(0.5), ...how }))).rhythm;
}

/** Triplets in crotchets are no exact numbers; ticks are. */
function onWholeTicks(score: Score): Score {
  return { ...score, occurrences: score.occurrences.map((one) => ({ ...one, onsetTick: Math.round(one.onsetTick), endTick: Math.round(one.endTick) })) };
}

const ofKind = (facts: RhythmFacts, kind: RhythmFigure['kind']): readonly RhythmFigure[] => facts.figures.filter((figure) => figure.kind === kind);

/** Notes of these lengths, one after the other, over so many bars of four crotchets. */
function lengths(hand: typeof right, pattern: readonly number[], bars: number): Written[] {
  const out: Written[] = [];
  let at = 0;
  for (let i = 0; at < 4 * bars - 1e-9; i += 1) {
    const length = pattern[i % pattern.length]!;
    const bar = Math.floor(at / 4 + 1e-9); // three thirds are a little less than one
    out.push(hand(1 + bar, 1 + at - 4 * bar, 60 + (i % 7), length));
    at += length;
  }
  return out;
}

describe('played as written, every figure has its written share (notation: a dot adds half, a double dot three quarters, a triplet note is two thirds)', () => {
  it.each([
    ['dotted', [0.75, 0.25], [3 / 4]],
    ['dotted', [1.5, 0.5], [3 / 4]],
    ['doubleDotted', [1.75, 0.25], [7 / 8]],
    ['snap', [0.25, 0.75], [1 / 4]],
    ['even', [0.5, 0.5], [1 / 2]],
    ['longShort', [2 / 3, 1 / 3], [2 / 3]],
    ['three', [1 / 3, 1 / 3, 1 / 3], [1 / 3, 1 / 3]],
  ] as const)('%s %j', (kind, pattern, shares) => {
    const found = ofKind(rhythm(lengths(right, pattern, 4)), kind);
    expect(found.length).toBeGreaterThan(2);
    for (const figure of found) figure.shares.forEach((share, i) => expect(share).toBeCloseTo(shares[i]!, 9));
  });

  it('whatever the tempo', () => {
    for (const crotchetS of [0.2, 0.5, 2]) {
      for (const { shares } of ofKind(rhythm(lengths(right, [0.75, 0.25], 4), { clock: steady(crotchetS) }), 'dotted')) expect(shares[0]).toBeCloseTo(0.75, 9);
    }
  });
});

describe('a dotted pair played otherwise', () => {
  // a dotted crotchet and a quaver last 2 crotchets of 0.5 s = 1 s; the quaver is due at 0.75 s
  const pairs = lengths(right, [1.5, 0.5], 4);
  const shortLater = (ms: number): Partial<Played> => ({ shiftMs: ({ onsetTick }) => (onsetTick / TICKS) % 2 === 1.5 ? ms : 0 });

  it.each([[-250, 1 / 2], [-750 / 9, 2 / 3], [125, 7 / 8]])('the short note %d ms off takes the share %d', (ms, share) => {
    for (const { shares } of ofKind(rhythm(pairs, shortLater(ms)), 'dotted')) expect(shares[0]).toBeCloseTo(share, 9);
  });

  it('a wait after it lengthens the whole and is no even dot', () => {
    // 0.75 s, then 0.25 s and a wait of 0.5 s before bar 3: 0.75 of 1.5 s; the whole took one and a half times its time
    const facts = rhythm(pairs, { clock: (c) => 0.5 * c + (c >= 8 ? 0.5 : 0) });
    const before = ofKind(facts, 'dotted').find(({ toTick }) => toTick === 8 * TICKS);
    expect(before?.shares[0]).toBeCloseTo(0.5, 9);
    expect(before?.spanTimes).toBeCloseTo(1.5, 9);
  });
});

describe('cross-rhythms', () => {
  it('three against two: in even playing both stay even, and each knows what the other does', () => {
    // 1 s for two crotchets: three at 0, 1/3, 2/3 s, two at 0 and 1/2 s; together only at 0
    const facts = rhythm([...lengths(right, [2 / 3], 4), ...lengths(left, [1], 4)]);
    const threes = ofKind(facts, 'three');
    expect(threes.map(({ against }) => against)).toEqual(threes.map(() => 2));
    for (const { shares } of threes) shares.forEach((share) => expect(share).toBeCloseTo(1 / 3, 9));
    const twos = ofKind(facts, 'even').filter(({ hand, fromTick, toTick }) => hand === 'left' && toTick - fromTick === 2 * TICKS);
    expect(twos.map(({ against }) => against)).toEqual(twos.map(() => 3));
    expect(facts.hands.map(({ tick }) => tick / TICKS)).toEqual([0, 2, 4, 6, 8, 10, 12, 14]);
  });

  it('four against three: they meet once a beat', () => {
    const facts = rhythm([...lengths(right, [1 / 4], 2), ...lengths(left, [1 / 3], 2)]);
    expect(ofKind(facts, 'three').map(({ against }) => against)).toEqual(Array.from({ length: ofKind(facts, 'three').length }, () => 4));
    // within each half of the beat the other hand strikes once, at a third or two thirds of it
    const halves = ofKind(facts, 'even').filter(({ fromTick, toTick }) => toTick - fromTick === TICKS / 2);
    expect(halves.map(({ against }) => against)).toEqual(halves.map(() => 3));
    expect(facts.hands.map(({ tick }) => tick / TICKS)).toEqual([0, 1, 2, 3, 4, 5, 6, 7]);
  });
});

describe('swing', () => {
  it.each([[1, 1 / 2], [1.5, 3 / 5], [2, 2 / 3], [3, 3 / 4]])('%d to one takes the share %d', (ratio, share) => {
    // quavers of 0.25 s: the second of two comes at ratio / (ratio + 1) of 0.5 s
    const later = (ratio / (ratio + 1)) * 500 - 250;
    const facts = rhythm(lengths(right, [0.5], 4), { shiftMs: ({ onsetTick }) => (onsetTick / TICKS) % 1 === 0.5 ? later : 0 });
    for (const { shares } of ofKind(facts, 'even')) expect(shares[0]).toBeCloseTo(share, 9);
  });
});

describe('what is no figure', () => {
  it('one with a missed note, an ornament, or grace notes before a note of it', () => {
    const dotted = lengths(right, [0.75, 0.25], 1);
    expect(ofKind(rhythm(dotted, { shiftMs: ({ index }) => index === 3 ? null : 0 }), 'dotted')).toHaveLength(2); // of four, the one with it and the one it ends are gone
    expect(ofKind(rhythm(dotted.map((one, i) => i === 1 ? { ...one, kind: 'trill' } : one)), 'dotted')).toHaveLength(2);
    expect(ofKind(rhythm([...dotted, { ...right(1, 2, 80), kind: 'grace' }]), 'dotted')).toHaveLength(1); // beat 2 begins one and ends one; the fourth has no end
  });

  it('a pair that does not begin a part of the bar: crotchets two and three', () => {
    const facts = rhythm([right(1, 1, 60, 0.5), right(1, 1.5, 62, 1), right(1, 2.5, 64, 1), right(1, 3.5, 65, 0.5), right(1, 4, 67, 1)]);
    expect(ofKind(facts, 'even')).toEqual([]);
  });
});

it('a ritardando leaves the shares nearly as they are', () => {
  // each crotchet 10 % longer than the one before: within one dotted crotchet pair of two, 1.5 and 0.5 of them take 1 + 0.5 * 1.1 and 0.5 * 1.1 parts
  const clock: Clock = (c) => { const whole = Math.floor(c); return 0.5 * ((1.1 ** whole - 1) / 0.1 + (c - whole) * 1.1 ** whole); };
  const facts = rhythm(lengths(right, [1.5, 0.5], 2), { clock });
  for (const { shares } of ofKind(facts, 'dotted')) expect(shares[0]).toBeCloseTo(1.55 / 2.1, 6);
});
