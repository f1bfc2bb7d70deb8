import { describe, expect, it } from 'vitest';
import { analyseScore } from '../../src/analysis/index.js';
import { judgeRoute } from '../../src/judge/route.js';
import type { AspectJudgement } from '../../src/judge/index.js';
import type { Stretch } from '../../src/align/index.js';
import { material, stretch } from '../review/material.js';
import { NO_MEASURES } from '../measure/nothing.js';

// four bars, the first two repeated: visits 0-5 are bars 1 2 1 2 3 4
function judged(route: readonly Stretch[]): AspectJudgement {
  const parts = material({ route });
  return judgeRoute({ ...parts, analysis: analyseScore(parts.score), measures: { ...NO_MEASURES, bars: parts.measures.bars }, language: 'british' });
}

describe('the route', () => {
  it('straight through: nothing to say', () => {
    const { observations, summary, concern } = judged([stretch(0, 0, 5)]);
    expect(observations).toEqual([]);
    expect(summary).toBe('Straight on, without going back.');
    expect(concern).toEqual({ measured: true, value: 0 });
  });

  it('going back again and again from one bar weighs more than twice from different ones, and says where to begin', () => {
    const stuck = judged([stretch(0, 0, 4), stretch(1, 2, 4), stretch(2, 2, 5)]);
    expect(stuck.observations.map(({ text, advice }) => [text, advice])).toEqual([['You went back to bar 1 twice from bar 3.', 'Start at bar 3 itself, then at bar 2, then play through once without stopping.']]);
    const apart = judged([stretch(0, 0, 3), stretch(1, 2, 4), stretch(2, 3, 5)]);
    expect(apart.observations).toHaveLength(2);
    expect(stuck.observations[0]?.weight).toBeGreaterThan(apart.observations[0]?.weight ?? 1);
  });

  it('breaking off at different places, each time after a slip, is one habit; without slips it is none', () => {
    // occurrences: five a visit, the left hand’s first; a wrong left-hand note in bar 2 and in bar 3, where the playing breaks off
    const route = [stretch(0, 0, 1), stretch(1, 0, 4), stretch(2, 4, 5)];
    const slips = [{ near: 5, stretch: 0 }, { near: 20, stretch: 1 }];
    const parts = material({
      route, keys: [44, 44], bars: [{ visitIndex: 1, stretch: 0 }, { visitIndex: 4, barIndex: 2, number: '3', stretch: 1 }],
      missed: slips.map(({ near, stretch: index }) => ({ occurrence: near, stretch: index, attempt: 1 })),
      added: slips.map(({ near, stretch: index }, note) => ({ note, stretch: index, near, instead: true })),
    });
    const { observations } = judgeRoute({ ...parts, analysis: analyseScore(parts.score), measures: { ...NO_MEASURES, bars: parts.measures.bars }, language: 'british' });
    expect(observations.map(({ text }) => text)).toEqual(['You broke off in bars 2–3, where the left hand had slipped, and went back.']);
    expect(judged(route).observations).toHaveLength(2);
  });

  it('the bar that broke off is begun again, not gone back to', () => {
    expect(judged([stretch(0, 0, 4), stretch(1, 4, 5)]).observations.map(({ text }) => text)).toEqual(['You began bar 3 again.']);
  });

  it('playing the piece once more from the beginning is no going back', () => {
    expect(judged([stretch(0, 0, 5), stretch(1, 0, 5)]).observations).toEqual([]);
  });

  it('hands in turn are no going back', () => {
    expect(judged([{ ...stretch(0, 0, 3), hands: 'right' }, { ...stretch(1, 0, 3), hands: 'left' }]).observations).toEqual([]);
  });

  it('a repeat left out and bars left out are different things', () => {
    expect(judged([stretch(0, 0, 1), stretch(1, 4, 5)]).observations.map(({ kind, text }) => [kind, text])).toEqual([['repeatLeftOut', 'The repeat of bars 1–2 was not taken.']]);
    expect(judged([stretch(0, 0, 3), stretch(1, 5, 5)]).observations.map(({ kind, text }) => [kind, text])).toEqual([['barsLeftOut', 'Left out: bar 3.']]);
  });
});
