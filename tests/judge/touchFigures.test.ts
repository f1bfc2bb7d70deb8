import { describe, expect, it } from 'vitest';
import { sameFigures } from '../../src/measure/index.js';
import { heldPiece, type Held } from '../measure/holdingPiece.js';
import { left, right, scoreOf } from '../measure/piece.js';
import { barsOf, foundOf, kinds, touchOf } from './heldPlayers.js';

const PLAYERS = 20;

/** Six crotchets over a bar and a half, then a minim to end the second bar: C E D F E G from a keynote. */
const SHAPE = [0, 4, 2, 5, 4, 7];

/** The figure from the first beat of a bar; `share` of the value that its keys are down. */
function figure(hand: typeof right, bar: number, keynote: number, share: number): readonly Held[] {
  const beats = SHAPE.map((step, i): Held => ({ ...hand(bar + Math.floor(i / 4), 1 + (i % 4), keynote + step), share }));
  return [...beats, { ...hand(bar + 1, 3, keynote, 2), share: 1 }];
}

/** Both hands in turn, four times each, over long notes of the other. */
const inTurn = (shareOf: (hand: 'right' | 'left', time: number) => number): readonly Held[] => [0, 1, 2, 3].flatMap((time) => [
  ...figure(right, 4 * time + 1, 72 + time, shareOf('right', time)), { ...left(4 * time + 1, 1, 48, 8), share: 1 },
  ...figure(left, 4 * time + 3, 43 + time, shareOf('left', time)), { ...right(4 * time + 3, 1, 76, 8), share: 1 },
]);

/** The right hand alone, six times. */
const returns = (shareOf: (time: number) => number): readonly Held[] => [0, 1, 2, 3, 4, 5].flatMap((time) => figure(right, 2 * time + 1, 65 + time, shareOf(time)));

describe('where a figure comes again', () => {
  it('in any key and either hand', () => {
    const found = sameFigures(heldPiece(inTurn(() => 1)).score);
    expect(found).toHaveLength(1);
    expect(found[0]?.map(({ line, chords }) => [line, chords.length]).sort()).toEqual([...Array.from({ length: 4 }, () => ['1 11', 6]), ...Array.from({ length: 4 }, () => ['2 21', 6])]);
  });

  it('a scale in one value, one note repeated, and notes with rests between them are none', () => {
    const line = (steps: readonly number[], length = 1) => scoreOf([...steps, ...steps].map((step, i) => right(1 + Math.floor(i / 6), 1 + (i % 6), 60 + step, length)), { beats: 6 });
    expect(sameFigures(line([0, 2, 4, 5, 7, 9]))).toEqual([]);
    expect(sameFigures(line([0, 0, 0, 0, 0, 0]))).toEqual([]);
    expect(sameFigures(line([0, 4, 2, 5, 4, 7], 0.5))).toEqual([]);
    expect(sameFigures(line([0, 4, 2, 5, 4, 7]))).toHaveLength(1);
  });
});

describe('one figure, one touch', () => {
  it('joined in one hand and detached in the other', () => {
    const judged = touchOf(inTurn((hand) => (hand === 'right' ? 1 : 0.4)));
    expect(judged.observations.map(({ kind, text }) => [kind, text])).toEqual([['figureUnlike', 'Left hand, bars 3, 7, 11 and 15: the figure is detached, and joined in the right hand.']]);
  });

  it('either touch is right where both hands have it, and where one hand changes as it goes on', () => {
    expect(kinds(touchOf(inTurn(() => 0.4)))).toEqual([]);
    expect(kinds(touchOf(inTurn(() => 1)))).toEqual([]);
    expect(kinds(touchOf(inTurn((hand, time) => (hand === 'left' && time > 1 ? 0.4 : 1))))).toEqual([]);
  });

  it('one return of six played otherwise is named; two halves are a choice', () => {
    const [first] = touchOf(returns((time) => (time === 3 ? 0.4 : 1))).observations;
    expect(first?.text).toBe('Right hand, bar 7: the figure is detached here, joined elsewhere.');
    expect(barsOf(touchOf(returns((time) => (time === 3 ? 1 : 0.4))))).toEqual([7]);
    expect(kinds(touchOf(returns((time) => (time >= 3 ? 0.4 : 1))))).toEqual([]);
  });

  it('what is marked is judged by its mark, and the pedal lets fingers go', () => {
    const marked = inTurn((hand) => (hand === 'right' ? 1 : 0.4)).map((note): Held => (note.staff === 2 && note.length === 1 ? { ...note, marks: ['staccato'] } : note));
    expect(kinds(touchOf(marked))).toEqual([]);
    expect(kinds(touchOf(inTurn((hand) => (hand === 'right' ? 1 : 0.4)), { sustain: [{ timeS: 0, value: 127 }] }))).toEqual([]);
  });

  it.each([1, 0.95, 0.85, 0.75])('the other hand at %f of the value: silent', (share) => {
    expect(foundOf(PLAYERS, (seed) => touchOf(inTurn((hand) => (hand === 'right' ? 1.05 : share)), { seed }), 'figureUnlike')).toBe(0);
  });

  it.each([0.5, 0.33])('at %f: found', (share) => {
    expect(foundOf(PLAYERS, (seed) => touchOf(inTurn((hand) => (hand === 'right' ? 1.05 : share)), { seed }), 'figureUnlike')).toBeGreaterThanOrEqual(0.95 * PLAYERS);
  });
});
