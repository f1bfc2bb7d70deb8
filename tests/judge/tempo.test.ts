import { describe, expect, it } from 'vitest';
import { judgeTempo } from '../../src/judge/tempo.js';
import type { AspectJudgement } from '../../src/judge/index.js';
import type { Direction } from '../../src/score/index.js';
import { AWKWARD } from '../measure/awkward.js';
import { NO_MEASURES } from '../measure/nothing.js';
import { analysed, played, scoreOf, steady, type Clock, type Played } from '../measure/piece.js';
import { marked, tempoMark } from '../measure/pulsePiece.js';
import { barsClock, judgedBy, oneOf, SIXTEEN, takeOf } from './timePiece.js';

/** Sixteen bars under marks, on a clock. */
function judged(marks: readonly Direction[], clock: Clock, more: Partial<Played> = {}): AspectJudgement {
  return judgedBy(judgeTempo, takeOf(marked(SIXTEEN, ...marks), 1, clock, more));
}

const kinds = ({ observations }: AspectJudgement): readonly string[] => observations.map(({ kind }) => kind);
const concernOf = ({ concern }: AspectJudgement): number => (concern.measured ? concern.value : NaN);

/** Marked 100 crotchets a minute, played at this share of it. */
const at = (share: number): AspectJudgement => judged([tempoMark('Andante quarter = 100', { value: 100 })], steady(0.6 / share));

describe('against a figure', () => {
  it.each([0.91, 1, 1.1])('%f of it is as marked: within a tenth', (share) => {
    expect(kinds(at(share))).toEqual([]);
    expect(at(share).summary).toBe('The tempo is as marked.');
  });

  it('slower, and from below three quarters on with another character', () => {
    expect(oneOf(at(0.85), 'slow').text).toBe('Slower than marked: about crotchet = 85, marked 100.');
    expect(oneOf(at(0.72), 'slow').text).toBe('Slower than marked: about crotchet = 72, marked 100, and the character changes.');
  });

  it('faster', () => {
    expect(oneOf(at(1.3), 'fast').text).toBe('Faster than marked: about crotchet = 130, marked 100.');
  });

  it('half of it is practice: said, not blamed', () => {
    const { text, advice, weight } = oneOf(at(0.55), 'slowPractice');
    expect(text).toBe('Slow practice: about crotchet = 55, marked 100.');
    expect(advice).toContain('4 to 8 beats a minute');
    expect(weight).toBeLessThan(oneOf(at(0.85), 'slow').weight);
    expect(concernOf(at(0.55))).toBeLessThan(concernOf(at(0.72)));
  });

  it('under three quarters is practice where a part is worked at', () => {
    expect(kinds(judged([tempoMark('quarter = 100', { value: 100 })], steady(0.6 / 0.7), { visits: [0, 7] }))).toEqual(['slowPractice']);
    expect(kinds(judged([tempoMark('quarter = 100', { value: 100 })], steady(0.6 / 0.7)))).toEqual(['slow']);
  });

  it('the concern rises with the distance', () => {
    expect(concernOf(at(1))).toBeLessThan(concernOf(at(0.93)));
    expect(concernOf(at(0.93))).toBeLessThan(concernOf(at(0.85)));
    expect(concernOf(at(0.85))).toBeLessThan(concernOf(at(0.75)));
  });

  it('a mark of less than four bars sets no tempo', () => {
    const marks = [tempoMark('quarter = 100', { value: 100 }), tempoMark('quarter = 50', { bar: 5, value: 50 }), tempoMark('quarter = 100', { bar: 8, value: 100 })];
    expect(kinds(judged(marks, steady(0.6)))).toEqual([]);
  });
});

describe('against words', () => {
  it('anything a word may stand for is as marked', () => {
    for (const beats of [60, 80, 104]) expect(kinds(judged([tempoMark('Andante')], steady(60 / beats)))).toEqual([]);
    // Adagio counted in quavers
    expect(kinds(judged([tempoMark('Adagio')], steady(60 / 34)))).toEqual([]);
  });

  it('what is clearly outside is said, and less surely', () => {
    const found = oneOf(judged([tempoMark('Allegro')], steady(60 / 70)), 'slow');
    expect(found.text).toContain('marked Allegro');
    expect(found.confidence).toBeLessThan(oneOf(at(0.85), 'slow').confidence);
  });

  it('no mark, no blame; but the concern orders', () => {
    const slow = judged([], steady(60 / 50));
    expect(kinds(slow)).toEqual([]);
    expect(slow.summary).toBe('No tempo is marked.');
    expect(concernOf(slow)).toBeGreaterThan(concernOf(judged([], steady(60 / 100))));
  });
});

describe('the closing ritardando', () => {
  const rit = [tempoMark('rit.', { bar: 15 })];
  /** Crotchets of 0.5 s, the last two bars slowing evenly to this share of the tempo. */
  const slowingTo = (share: number): Clock => (c) => {
    // square curve, worked from its integral: (1 - sqrt(1 + (w^2 - 1) x)) 2 / (1 - w^2)
    const x = (c - 56) / 7.5;
    const fall = share ** 2 - 1;
    return c <= 56 || share === 1 ? 0.5 * c : 28 + 3.75 * ((2 * (Math.sqrt(Math.max(0, 1 + fall * x)) - 1)) / fall);
  };

  it('made: praised where it went evenly', () => {
    const made = judged(rit, slowingTo(0.5));
    expect(kinds(made)).toEqual([]);
    expect(made.praise?.map(({ text }) => text)).toEqual(['Bars 15–16: you slowed evenly into the close.']);
  });

  it('not made', () => {
    const found = oneOf(judged(rit, slowingTo(1)), 'noClosingRitardando');
    expect(found.text).toBe('Bars 15–16: the “rit.” at the end is hardly made.');
    expect(found.places[0]).toMatchObject({ fromBar: 14, toBar: 15 });
  });

  it('hardly made weighs less than not made', () => {
    expect(oneOf(judged(rit, slowingTo(0.87)), 'noClosingRitardando').weight).toBeLessThan(oneOf(judged(rit, slowingTo(1)), 'noClosingRitardando').weight);
  });

  it('is asked for only where it is printed', () => {
    expect(kinds(judged([], slowingTo(1)))).toEqual([]);
  });
});

describe('written changes', () => {
  const marks = [tempoMark('Andante quarter = 80', { value: 80 }), tempoMark('Allegro quarter = 120', { bar: 9, value: 120 })];

  it('made', () => {
    expect(kinds(judged(marks, barsClock((bar) => (bar < 8 ? 0.75 : 0.5))))).toEqual([]);
  });

  it('not made', () => {
    const all = judged(marks, steady(0.62));
    expect(oneOf(all, 'notQuicker').text).toBe('Bar 9: “Allegro” asks for a quicker tempo, and it stays the same.');
  });

  it('meno mosso not made', () => {
    expect(kinds(judged([tempoMark('meno mosso', { bar: 9 })], steady(0.5)))).toEqual(['notSlower']);
    expect(kinds(judged([tempoMark('meno mosso', { bar: 9 })], barsClock((bar) => (bar < 8 ? 0.5 : 0.6))))).toEqual([]);
  });

  it('an accelerando not made', () => {
    expect(kinds(judged([tempoMark('accel.', { bar: 9 }), tempoMark('a tempo', { bar: 11 })], steady(0.5)))).toEqual(['noAccelerando']);
  });
});

describe.each(AWKWARD)('$name', ({ piece }) => {
  it('is judged: a concern between 0 and 1, or a reason', () => {
    const { concern, observations } = judgedBy(judgeTempo, piece);
    if (concern.measured) expect(concern.value >= 0 && concern.value <= 1).toBe(true);
    else expect(observations).toEqual([]);
  });
});

it('nothing measured, nothing said', () => {
  const whole = analysed(played(scoreOf([]), { clock: steady(1) }));
  expect(judgeTempo({ ...whole, measures: NO_MEASURES, language: 'british' }).concern).toMatchObject({ measured: false });
});
