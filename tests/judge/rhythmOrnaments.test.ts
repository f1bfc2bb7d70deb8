import { describe, expect, it } from 'vitest';
import { gaussian, seededRandom } from '../../src/base/index.js';
import { ornamentStrokes } from '../../src/measure/ornamentStrokes.js';
import type { Piece } from '../../src/measure/index.js';
import type { Ornament } from '../../src/score/index.js';
import { left, played, right, run, scoreOf, steady, type Written } from '../measure/piece.js';
import { judged, kinds } from './rhythmPiece.js';

const PLAYERS = 20;
const CROTCHET_S = 0.6;

/** Four bars: crotchets in the left hand, a trilled semibreve in bar 2 of the right, crotchets around it. */
const WRITTEN: readonly Written[] = [...run(left, 16), ...run(right, 4), { ...right(2, 1, 72, 4), kind: 'trill' as const }, ...[3, 4].flatMap((bar) => [1, 2, 3, 4].map((beat) => right(bar, beat, 64 + beat)))];

/** The strokes of an ornament over bar 2: semitones above the written note, and the distances before each but the first, seconds. */
interface Strokes {
  readonly steps: readonly number[];
  readonly distancesS: readonly number[];
  readonly sign?: Ornament;
  readonly seed?: number;
}

/** A take with these strokes in the ornament; the first of them is the written note's own. */
function ornamented({ steps, distancesS, sign = 'trill', seed }: Strokes): Piece {
  const plain = scoreOf(WRITTEN);
  const score = { ...plain, notes: plain.notes.map((note) => (note.ornaments.length > 0 ? { ...note, ornaments: [sign] } : note)) };
  const noise = seed === undefined ? () => 0 : gaussian(seededRandom(seed));
  const times = distancesS.reduce<readonly number[]>((all, distance) => [...all, (all.at(-1) ?? 0) + distance], [4 * CROTCHET_S]);
  const ornament = score.occurrences.find(({ noteIndex }) => (score.notes[noteIndex]?.ornaments.length ?? 0) > 0)!;
  const presses = steps.slice(1).map((step, i) => ({ atS: times[i + 1]! + 0.004 * noise(), pitch: 72 + step, near: ornament.index }));
  const piece = played(score, { clock: steady(CROTCHET_S), presses, shiftMs: () => 8 * noise() });
  const { added, ...alignment } = piece.alignment;
  return { ...piece, alignment: { ...alignment, added: [], ornaments: added.map(({ note }) => ({ note, stretch: 0, occurrence: ornament.index })) } };
}

const toAndFro = (count: number): readonly number[] => Array.from({ length: count }, (_, i) => (i % 2 === 0 ? 0 : 2));
/** A trill of so many strokes; `at` gives the distance before stroke i, seconds. */
const trill = (at: (i: number) => number, seed?: number): Piece => ornamented({ steps: toAndFro(17), distancesS: Array.from({ length: 16 }, (_, i) => at(i)), ...(seed !== undefined && { seed }) });
const found = (kind: string, of: (seed: number) => Piece): number => Array.from({ length: PLAYERS }, (_, seed) => of(seed + 1)).filter((piece) => kinds(judged(piece)).includes(kind)).length;

describe('the strokes of a trill', () => {
  it('go to and fro; the first and the last distance are left out', () => {
    // 16 distances of 80 ms, the first and the last of 300 ms: 14 stay, all alike
    const [one] = ornamentStrokes(trill((i) => (i === 0 || i === 15 ? 0.3 : 0.08)));
    expect(one).toMatchObject({ kind: 'trill', hand: 'right', visitIndex: 1, strokes: 15 });
    expect(one?.intervalMs).toBeCloseTo(80, 6);
    expect(one?.variation).toBeCloseTo(0, 6);
    expect(one?.longestTimes).toBeCloseTo(1, 6);
  });

  it('one wait of four strokes is the longest distance: 320 ms by 80 ms', () => {
    expect(ornamentStrokes(trill((i) => (i === 7 ? 0.32 : 0.08)))[0]?.longestTimes).toBeCloseTo(4, 6);
  });

  it('that are too few, or repeat a key, tell nothing', () => {
    // six distances, of which four stay: five are needed
    expect(ornamentStrokes(ornamented({ steps: toAndFro(7), distancesS: Array.from({ length: 6 }, () => 0.08) }))).toEqual([]);
    expect(ornamentStrokes(ornamented({ steps: [0, 2, 2, 0, 0, 2, 2, 0, 0, 2], distancesS: Array.from({ length: 9 }, () => 0.08) }))).toEqual([]);
  });

  it('of a turn are its last four, where they go round the note', () => {
    // held for 400 ms, then above, note, below, note at 100, 90 and 110 ms: longest by middle 110 / 100
    const turn = (steps: readonly number[]) => ornamentStrokes(ornamented({ sign: 'turn', steps, distancesS: [0.4, 0.1, 0.09, 0.11] }));
    expect(turn([0, 2, 0, -1, 0])[0]).toMatchObject({ kind: 'turn', strokes: 4 });
    expect(turn([0, 2, 0, -1, 0])[0]?.longestTimes).toBeCloseTo(1.1, 6);
    expect(turn([0, 2, 0, 2, 0])).toEqual([]);
  });
});

describe('trills and turns as a teacher hears them', () => {
  it('a trill may begin slowly, quicken, and be weaker in one finger', () => {
    expect(kinds(judged(trill((i) => 0.14 - 0.005 * i)))).toEqual([]);
    expect(kinds(judged(trill((i) => (i % 2 === 0 ? 0.1 : 0.07))))).toEqual([]);
  });

  it('that stops on the way', () => {
    // three times its usual distance is where it counts, and one stop hardly longer is worth no word
    expect(kinds(judged(trill((i) => (i === 8 ? 0.231 : 0.08))))).toEqual([]);
    const judgement = judged(trill((i) => (i === 8 ? 0.32 : 0.08)));
    expect(judgement.observations.map(({ kind, text }) => [kind, text])).toEqual([['stoppedTrill', 'Right hand, bar 2: the trill stops on the way.']]);
  });

  it('a turn of which one small note is held', () => {
    const turn = (longS: number) => kinds(judged(ornamented({ sign: 'turn', steps: [0, 2, 0, -1, 0], distancesS: [0.4, 0.1, longS, 0.1] })));
    expect(turn(0.2)).toEqual([]);
    expect(turn(0.35)).toEqual(['unevenTurn']);
  });

  it.each([0, 0.08, 0.15])('strokes that scatter by %f of their distance: silent, %#', (share) => {
    const players = (seed: number): Piece => { const noise = gaussian(seededRandom(900 + seed)); return trill(() => 0.12 * Math.max(0.2, 1 + share * noise()), seed); };
    expect(found('unevenTrill', players)).toBe(0);
  });

  it('by 0.6, twice what counts: found', () => {
    // distances of 0.4 or 1.6 of their mean, as a coin falls, scatter by 0.6
    const players = (seed: number): Piece => { const random = seededRandom(900 + seed); return trill(() => 0.12 * (random() < 0.5 ? 0.4 : 1.6), seed); };
    expect(found('unevenTrill', players) + found('stoppedTrill', players)).toBeGreaterThanOrEqual(0.95 * PLAYERS);
  });
});
