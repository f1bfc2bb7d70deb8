import { describe, expect, it } from 'vitest';
import { measured, notMeasured } from '../../src/base/index.js';
import { barFacts } from '../../src/measure/barFacts.js';
import { levelFacts } from '../../src/measure/levels.js';
import type { LevelFacts } from '../../src/measure/levelTypes.js';
import { onsetDeviations } from '../../src/measure/onsetDeviation.js';
import type { Piece } from '../../src/measure/piece.js';
import { levelDbOf } from '../../src/measure/velocityLevel.js';
import { AWKWARD } from './awkward.js';
import { barOf, struck } from './loudness.js';
import { left, played, right, scoreOf, steady, type Written } from './piece.js';

/** Repeated notes in both hands: no register comes in. */
const both: Written[] = Array.from({ length: 32 }, (_, i) => [right(1 + Math.floor(i / 4), 1 + (i % 4), 72), left(1 + Math.floor(i / 4), 1 + (i % 4), 48)]).flat();
const plain = played(scoreOf(both), { clock: steady(0.5) });
const all = (piece: Piece): ReturnType<typeof levelFacts> => levelFacts({ ...piece, analysis: { phrases: [] } }, barFacts(piece, onsetDeviations(piece)));

function facts(piece: Piece): LevelFacts {
  const found = all(piece);
  if (!found.measured) throw new RangeError(found.reason);
  return found.value;
}

describe('levels of a recording', () => {
  const loud = facts(struck(plain, (one) => (one.staff === 1 ? 60 : 45) + (barOf(one) === 8 ? 20 : 0)));

  it('of a bar and hand: the mean, its rank, its decibels', () => {
    // of 64 notes 28 are at 45, 28 at 60, 4 at 65, 4 at 80: below 60 are 28 and half of 28: 42 / 64
    expect(loud.bars[0]?.right).toEqual(measured({ notes: 4, velocity: 60, rank: 42 / 64, levelDb: levelDbOf(60) }));
    expect(loud.bars[7]?.left).toEqual(measured({ notes: 4, velocity: 65, rank: 58 / 64, levelDb: levelDbOf(65) }));
  });

  it('what is heard: two equal strokes are 3.01 dB over one', () => {
    const alike = facts(struck(plain, () => 60)).bars[0]?.heardDb;
    expect(alike?.measured === true ? alike.value : null).toBeCloseTo(levelDbOf(60) + 3.01, 2);
  });

  it('beat by beat: one entry a crotchet, with its moment', () => {
    expect(loud.beats).toHaveLength(32);
    expect(loud.beats[28]).toMatchObject({ stretch: 0, visitIndex: 7, tick: 28 * 480, startS: 14, right: measured(80), left: measured(65) });
  });

  it('the range lies between the quieter tenth and the louder tenth of the bars', () => {
    // seven bars at (60 + 45) / 2 = 52.5, one at 72.5: nine tenths of the way along eight values is place 6.3 from 0, three tenths of the way
    // from the seventh to the eighth: 52.5 + 0.3 × 20 = 58.5; a tenth of the way all are 52.5
    expect(loud.scale).toMatchObject({ registerTrend: 0, range: measured(6) });
  });

  it('of every pair: as recorded, with its rank', () => {
    expect(loud.notes.map(({ pair }) => pair)).toEqual(plain.alignment.pairs.map((_, i) => i));
    // the first of a moment is the lower one, and 28 notes at 45 are the softest
    expect(loud.notes[0]).toMatchObject({ velocity: 45, rank: 14 / 64, levelDb: levelDbOf(45) });
  });
});

describe('not measured', () => {
  it('without touch response', () => {
    const piece = { ...plain, recording: { ...plain.recording, limits: [{ kind: 'no-touch' as const, text: 'Every note has the same strength.' }] } };
    expect(all(piece)).toEqual(notMeasured('the instrument gives every note the same strength'));
  });

  it('from seven notes; from eight they are', () => {
    const of = (count: number): boolean => all(played(scoreOf(both.slice(0, count)), { clock: steady(0.5) })).measured;
    expect([7, 8].map(of)).toEqual([false, true]);
  });

  it('a hand that is silent has no level', () => {
    const silent = facts(played(scoreOf(both.filter(({ staff }) => staff === 1)), { clock: steady(0.5) }));
    expect(silent.bars[0]?.left).toEqual(notMeasured('the hand strikes nothing here'));
    expect(silent.balance.normal).toEqual(notMeasured('too few bars have a tune and an accompaniment'));
  });
});

describe.each(AWKWARD)('$name', ({ piece }) => {
  it('one entry a visit and a pair, every number finite', () => {
    const found = all(piece);
    if (!found.measured) {
      expect(found.reason).toMatch(/^[a-z].{10,}[^.]$/);
      return;
    }
    const { bars, notes, beats, changes, hairpins, accents } = found.value;
    expect([bars.length, notes.length]).toEqual([barFacts(piece, onsetDeviations(piece)).length, piece.alignment.pairs.length]);
    const numbers = JSON.stringify([bars, notes, beats, changes, hairpins, accents, found.value.balance, found.value.scale], (_, value: unknown) => (typeof value === 'number' && !Number.isFinite(value) ? 'not finite' : value));
    expect(numbers).not.toContain('not finite');
  });
});
