import { describe, expect, it } from 'vitest';
import { played, right, run, scoreOf } from './piece.js';
import { marked, measuredAll, tempoMark } from './pulsePiece.js';

/** Eight bars of crotchets, invented. */
const score = scoreOf(run(right, 32));

/** Crotchets of 0.5 s until the 24th, then on the square curve to half tempo at the last onset, 7 crotchets on: 2 (1 - sqrt(1 - 0.75 x)) / 0.75. */
const slowing = (c: number): number => (c <= 24 ? c * 0.5 : 12 + 3.5 * ((2 * (1 - Math.sqrt(1 - (0.75 * (c - 24)) / 7))) / 0.75));

describe('a printed ritardando', () => {
  it('made on the curve to half tempo', () => {
    const [bend, ...others] = measuredAll(played(marked(score, tempoMark('rit.', { bar: 7 })), { clock: slowing })).pulse.bends;
    expect(others).toEqual([]);
    expect(bend).toMatchObject({ closing: true, fromVisit: 6, toVisit: 7 });
    expect(bend?.endTempo.measured === true && bend.endTempo.value).toBeCloseTo(0.5, 6);
    expect(bend?.offCurve.measured === true && bend.offCurve.value).toBeCloseTo(0, 6);
  });

  it('not made', () => {
    const bend = measuredAll(played(marked(score, tempoMark('rit.', { bar: 7 })), { clock: (c) => c * 0.5 })).pulse.bends[0];
    expect(bend?.endTempo.measured === true && bend.endTempo.value).toBeCloseTo(1, 6);
  });

  it('on the way holds until "a tempo"', () => {
    // one bar of crotchets of 0.625 s (0.8 of the tempo) in a piece of 0.5 s
    const clock = (c: number): number => 0.5 * c + 0.125 * Math.min(4, Math.max(0, c - 8));
    const bend = measuredAll(played(marked(score, tempoMark('rit.', { bar: 3 }), tempoMark('a tempo', { bar: 4 })), { clock })).pulse.bends[0];
    expect(bend).toMatchObject({ closing: false, fromVisit: 2, toVisit: 2 });
    // 1.25 times the steady time; on the cubic curve 1.5 (w^2 - 1) / (w^3 - 1) = 1.25 at w = 0.549, on the square one 2 / (1 + w) at w = 0.6
    expect(bend?.endTempo.measured === true && bend.endTempo.value).toBeGreaterThan(0.54);
    expect(bend?.endTempo.measured === true && bend.endTempo.value).toBeLessThan(0.61);
  });

  it('that was not reached is not measured', () => {
    expect(measuredAll(played(marked(score, tempoMark('rit.', { bar: 7 })), { clock: (c) => c / 2, visits: [0, 6] })).pulse.bends[0]?.endTempo).toMatchObject({ measured: false });
    expect(measuredAll(played(marked(score, tempoMark('rit.', { bar: 7 })), { clock: (c) => c / 2, visits: [0, 4] })).pulse.bends).toEqual([]);
  });
});

describe('tempos that are written', () => {
  const twoTempos = marked(score, tempoMark('Andante quarter = 80', { value: 80 }), tempoMark('Allegro quarter = 120', { bar: 5, value: 120 }));

  it('each has its span and its tempo', () => {
    // 0.75 s a crotchet is 80, 0.5 s is 120
    const spans = measuredAll(played(twoTempos, { clock: (c) => (c <= 16 ? 0.75 * c : 12 + 0.5 * (c - 16)) })).pulse.spans;
    expect(spans.map(({ fromVisit, toVisit, mark }) => [fromVisit, toVisit, mark?.crotchetsAMinute])).toEqual([[0, 3, 80], [4, 7, 120]]);
    expect(spans.map(({ played: tempo }) => (tempo.measured ? Math.round(tempo.value) : null))).toEqual([80, 120]);
  });

  it('"a tempo" goes back to the mark before, and begins no other', () => {
    const back = marked(score, tempoMark('Andante quarter = 80', { value: 80 }), tempoMark('rit.', { bar: 4 }), tempoMark('a tempo', { bar: 5 }));
    expect(measuredAll(played(back, { clock: (c) => 0.75 * c })).pulse.spans.map(({ fromVisit, toVisit }) => [fromVisit, toVisit])).toEqual([[0, 7]]);
  });

  it('"tempo primo" goes back to the first', () => {
    const primo = marked(score, tempoMark('Andante quarter = 80', { value: 80 }), tempoMark('Allegro quarter = 120', { bar: 4, value: 120 }), tempoMark('Tempo primo', { bar: 6 }));
    expect(measuredAll(played(primo, { clock: (c) => 0.75 * c })).pulse.spans.map(({ mark }) => mark?.crotchetsAMinute)).toEqual([80, 120, 80]);
  });

  it('a speed for playing back that is not printed is no mark', () => {
    expect(measuredAll(played(marked(score, tempoMark('', { value: 80 })), { clock: (c) => c })).pulse.spans.map(({ mark }) => mark)).toEqual([null]);
  });
});
