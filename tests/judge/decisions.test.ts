import { describe, expect, it } from 'vitest';
import { decided } from '../../src/judge/decisions.js';
import { NO_DECISIONS, type AspectJudgement, type Decisions, type RightAsPlayed } from '../../src/judge/index.js';
import { observation, place } from '../review/observations.js';

const score = { bars: ['0', '1', '2', '3'].map((number) => ({ number })), notes: [{ id: 'a' }, { id: 'b' }] };
const judged: AspectJudgement = {
  aspect: 'rhythm', concern: { measured: true, value: 0.5 }, summary: '', observations: [
    observation({ kind: 'swung', places: [place(1, 1, { notes: [0] }), place(3, 3, { notes: [1] })] }),
    observation({ kind: 'late', weight: 0.3 }),
  ],
};
const right = (more: Partial<RightAsPlayed>): Decisions => ({ ...NO_DECISIONS, rightAsPlayed: [{ aspect: 'rhythm', kind: null, notes: [], bars: null, ...more }] });
const left = (decisions: Decisions): readonly (readonly [string, number])[] => decided(judged, decisions, score).observations.map(({ kind, places }) => [kind, places.length]);

describe('what the teacher decided', () => {
  it('without a decision nothing changes', () => {
    expect(decided(judged, NO_DECISIONS, score)).toBe(judged);
  });

  it('a note that is right as played is not remarked on; the same thing elsewhere still is', () => {
    expect(left(right({ notes: ['a'] }))).toEqual([['swung', 1], ['late', 1]]);
    expect(left(right({ notes: ['a', 'b'] }))).toEqual([['late', 1]]);
  });

  it('bars by their printed numbers, both included; a bar that the score does not have covers nothing', () => {
    expect(left(right({ kind: 'swung', bars: [['1', '2']] }))).toEqual([['swung', 1], ['late', 1]]);
    expect(left(right({ kind: 'swung', bars: [['1', '3']] }))).toEqual([['late', 1]]);
    expect(left(right({ kind: 'swung', bars: [['99', '99']] }))).toEqual([['swung', 2], ['late', 1]]);
  });

  it('several stretches cover several places: nothing of the remark stays', () => {
    expect(left(right({ kind: 'swung', bars: [['1', '1'], ['3', '3']] }))).toEqual([['late', 1]]);
  });

  it('a kind of remark that is left alone stays away, and concern goes down with it', () => {
    const after = decided(judged, { ...NO_DECISIONS, left: [{ aspect: 'rhythm', kind: 'swung' }] }, score);
    expect(after.observations.map(({ kind }) => kind)).toEqual(['late']);
    // 1 - 0.5 (1 - 0.15) = 0.575 before, 0.3 after: 0.5 × 0.3 / 0.575
    expect(after.concern.measured ? after.concern.value : null).toBeCloseTo(0.2609, 4);
  });

  it('lenient halves weights and passes over what is then slight; strict adds a quarter', () => {
    const strictness = (how: 'lenient' | 'strict'): readonly number[] =>
      decided(judged, { ...NO_DECISIONS, preferences: { strictness: { rhythm: how }, lookAt: [] } }, score).observations.map(({ weight }) => weight);
    expect(strictness('lenient')).toEqual([0.25]);
    expect(strictness('strict')).toEqual([0.625, 0.375]);
  });
});
