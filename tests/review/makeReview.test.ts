import { describe, expect, it } from 'vitest';
import { analyseScore } from '../../src/analysis/index.js';
import type { JudgeInput } from '../../src/judge/index.js';
import { makeReview } from '../../src/review/index.js';
import { withoutEchoes } from '../../src/review/makeReview.js';
import { worthOf } from '../../src/review/care.js';
import { forParent, spokenOf } from '../../src/review/forParent.js';
import { material, stretch } from './material.js';
import { observation, place } from './observations.js';
import { NO_MEASURES } from '../measure/nothing.js';

/** Six visits (bars 1 2 1 2 3 4), three notes of the right hand in bar 2 wrong the first time; in bars 3 and 4 too, another way, where that is asked for. */
function input(route = [stretch(0, 0, 5)], more = false): JudgeInput {
  // occurrences: a left-hand note and four of the right hand a visit; visit 1 begins with 5, visit 4 with 20, visit 5 with 25
  const slips = [[6, 65], [7, 65], [8, 65], ...(more ? [[21, 67], [22, 67], [23, 67], [26, 69], [27, 69], [28, 69]] : [])].map(([near = 0, key = 0]) => ({ near, key }));
  const stretchIndex = more ? route.length - 1 : 0;
  const parts = material({
    route, bars: [{ stretch: stretchIndex }, ...(more ? [{ visitIndex: 4, barIndex: 2, number: '3', stretch: stretchIndex }, { visitIndex: 5, barIndex: 3, number: '4', stretch: stretchIndex }] : [])], keys: slips.map(({ key }) => key),
    missed: slips.map(({ near }) => ({ occurrence: near, stretch: stretchIndex, attempt: 1 })),
    added: slips.map(({ near }, note) => ({ note, stretch: stretchIndex, near, instead: true })),
  });
  return { ...parts, analysis: analyseScore(parts.score), measures: { ...NO_MEASURES, ...parts.measures }, language: 'british' };
}

describe('what is worth saying', () => {
  const caring = { purpose: 'runThrough', lookAt: [], pitfallBars: new Set<number>() } as const;

  it('sound counts less than notes in a first reading', () => {
    const sound = observation({ aspect: 'dynamics', weight: 0.6 });
    expect(worthOf(sound, { ...caring, purpose: 'firstReading' })).toBeLessThan(worthOf(sound, caring));
  });

  it('a place that the analysis expected weighs more, and so does what she looks at this week', () => {
    const one = observation({ places: [place(7)] });
    expect(worthOf(one, { ...caring, pitfallBars: new Set([7]) })).toBeGreaterThan(worthOf(one, caring));
    expect(worthOf(one, { ...caring, lookAt: ['rhythm'] })).toBeGreaterThan(worthOf(one, caring));
  });

  it('a slow tempo is no remark where the recording is for reading or building up, and one where it is played through', () => {
    const slow = observation({ aspect: 'tempo', kind: 'slow' });
    expect((['firstReading', 'buildingUp'] as const).map((purpose) => worthOf(slow, { ...caring, purpose }))).toEqual([0, 0]);
    expect(worthOf(slow, caring)).toBeGreaterThan(0);
    expect(worthOf(observation({ aspect: 'tempo', kind: 'noClosingRitardando' }), { ...caring, purpose: 'buildingUp' })).toBeGreaterThan(0);
  });

  it('every observation is said somewhere, once', () => {
    const { worthSaying, alsoSeen, judgement } = makeReview(input());
    const said = [...worthSaying, ...alsoSeen.flatMap(({ remarks }) => remarks)].flatMap(({ observations }) => observations);
    expect(new Set(said)).toEqual(new Set(judgement.observations));
    expect(said).toHaveLength(judgement.observations.length);
  });

  it('at most three for most, one for a child under nine; from nine on three', () => {
    const many = input([stretch(0, 0, 1), stretch(1, 0, 1), stretch(2, 0, 1), stretch(3, 0, 5)], true);
    const said = (age: number | null): number => makeReview(many, { purpose: 'fromMemory', age }).worthSaying.length;
    expect(said(null)).toBeGreaterThan(1);
    expect(said(null)).toBeLessThanOrEqual(3);
    expect(said(8)).toBe(1);
    expect(said(9)).toBe(said(null));
  });

  it('gives the same advice once', () => {
    const [first] = makeReview(input()).worthSaying;
    const alike = withoutEchoes([{ ...first!, advice: 'Ring it.' }, { ...first!, advice: 'Count.' }, { ...first!, advice: 'Ring it.' }]);
    expect(alike.map(({ advice }) => advice)).toEqual(['Ring it.', 'Count.', '']);
  });

  it('for a child the remark is written for the parent, who helps', () => {
    const remark = { text: 'You wait before bar 6. It comes again in bar 8.', advice: 'Practise only the end of bar 5 into it.' };
    expect(forParent(remark, 'Nilo')).toEqual({ text: 'Nilo waits before bar 6. It comes again in bar 8.', advice: 'Help at home: practise only the end of bar 5 into it.' });
    expect(forParent({ text: 'Left hand, bar 3: F for E.', advice: '' }, 'Nilo')).toEqual({ text: 'Left hand, bar 3: F for E.', advice: '' });
    expect(spokenOf('Bars 23–24: you slowed evenly into the close.', 'The pupil')).toBe('Bars 23–24: the pupil slowed evenly into the close.');
    expect(makeReview(input(), { age: 8 })).toMatchObject({ forParent: true });
    expect(makeReview(input(), { age: 9 })).toMatchObject({ forParent: false });
  });

  it('nothing is praised where nothing was earned', () => {
    expect(makeReview(input()).goingWell).toEqual([]);
  });

  it('takes the purpose that is said, and says when it was guessed', () => {
    expect(makeReview(input(), { purpose: 'fromMemory' }).purpose).toEqual({ purpose: 'fromMemory', guessed: false, reason: '' });
    expect(makeReview(input()).purpose).toMatchObject({ purpose: 'firstReading', guessed: true });
  });
});
