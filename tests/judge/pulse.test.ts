import { describe, expect, it } from 'vitest';
import { judgePulse } from '../../src/judge/pulse.js';
import { NO_MEASURES } from '../measure/nothing.js';
import { AWKWARD } from '../measure/awkward.js';
import { analysed, played, right, run, scoreOf, steady } from '../measure/piece.js';
import { marked, tempoMark } from '../measure/pulsePiece.js';
import { running, waiting } from './plantedFaults.js';
import { analysisOf, barsClock, foundShare, judgedBy, oneOf, players, SIXTEEN, takeOf, timeMeasures } from './timePiece.js';

const kinds = (clock: (crotchets: number) => number, seed = 1): readonly string[] => judgedBy(judgePulse, takeOf(SIXTEEN, seed, clock)).observations.map(({ kind }) => kind);

describe('a hesitation within a phrase, by its size in beats', () => {
  const share = (beats: number): number => foundShare(judgePulse, players().map((seed) => takeOf(SIXTEEN, seed, waiting(beats))), { kind: 'hesitation', bars: [7, 7] });

  it.each([0, 0.06, 0.12, 0.2])('%f: silent (6 %% of a beat is just heard, Drake and Botte 1993; up to a third is expression)', (beats) => {
    expect(share(beats)).toBe(0);
  });

  it.each([0.67, 1, 2])('%f, twice what is clear and more: found with at least 95 %% of players', (beats) => {
    expect(share(beats)).toBeGreaterThanOrEqual(0.95);
  });

  it('grows heavier with its size', () => {
    const weight = (beats: number): number => oneOf(judgedBy(judgePulse, takeOf(SIXTEEN, 3, waiting(beats))), 'hesitation').weight;
    expect(weight(0.7)).toBeLessThan(weight(1.4));
    expect(weight(1.4)).toBeLessThan(weight(2.8));
  });
});

describe('what a wait is called', () => {
  it('where, in a sentence, and what to do', () => {
    const { text, advice, places } = oneOf(judgedBy(judgePulse, takeOf(SIXTEEN, 2, waiting(1.5))), 'hesitation');
    expect(text).toMatch(/^You wait in bar 7( .*)?\.$/);
    expect(advice).toContain('end of bar 6 into it');
    expect(places).toHaveLength(1);
    expect(places[0]).toMatchObject({ fromBar: 6, toBar: 6, pass: 1, attempt: 1 });
  });

  it('in American English the advice has no British word left', () => {
    const piece = takeOf(SIXTEEN, 2, waiting(1.5));
    const analysis = analysisOf(piece.score);
    const judged = judgePulse({ ...piece, analysis, measures: timeMeasures(piece, analysis), language: 'american' });
    expect(oneOf(judged, 'hesitation').advice).toBe('Practice only the end of measure 6 into it, moving early.');
  });

  it('several are one observation; before a bar line they are before the bar', () => {
    const { text, places } = oneOf(judgedBy(judgePulse, takeOf(SIXTEEN, 2, (c) => 0.6 * c + (c >= 24 ? 1 : 0) + (c >= 44 ? 1 : 0))), 'hesitation');
    expect(places.map(({ fromBar }) => fromBar)).toEqual([6, 11]);
    expect(text).toBe('You wait before bars 7 and 12.');
  });

  it('from two seconds and two beats on it is a stop', () => {
    expect(kinds((c) => 0.6 * c + (c >= 26 ? 2.2 : 0))).toEqual(['stop']);
    expect(kinds((c) => 0.6 * c + (c >= 26 ? 1.8 : 0))).toEqual(['hesitation']);
  });
});

describe('what is no hesitation', () => {
  it('a wait on a fermata, or ad libitum', () => {
    const note = SIXTEEN.occurrences.find(({ onsetTick, staff }) => staff === 1 && onsetTick === 25 * SIXTEEN.ticksPerQuarter)?.noteIndex;
    const held = { ...SIXTEEN, notes: SIXTEEN.notes.map((one) => (one.index === note ? { ...one, fermata: true, lengthTicks: SIXTEEN.ticksPerQuarter } : one)) };
    expect(judgedBy(judgePulse, takeOf(held, 1, waiting(1.5))).observations).toEqual([]);
    expect(judgedBy(judgePulse, takeOf(marked(SIXTEEN, tempoMark('ad lib.', { bar: 7 })), 1, waiting(1.5))).observations).toEqual([]);
  });

  it('one late note', () => {
    expect(judgedBy(judgePulse, played(SIXTEEN, { clock: steady(0.6), shiftMs: ({ index }) => (index === 60 ? 200 : 0) })).observations).toEqual([]);
  });

  it('a smooth rubato of a tenth either way, in waves of four bars', () => {
    for (const seed of players(10)) expect(kinds((c) => 0.6 * c + 0.6 * (0.1 * 16) / (2 * Math.PI) * Math.sin((2 * Math.PI * c) / 16), seed)).toEqual([]);
  });

  it('a wait that is made alike each time through, if it is no more than at the edge of a phrase', () => {
    const twice = scoreOf(run(right, 64, 0.5), { order: [1, 2, 3, 4, 5, 6, 7, 8, 1, 2, 3, 4, 5, 6, 7, 8] });
    const alike = (c: number): number => 0.6 * c + 0.27 * [10, 42].filter((at) => c >= at).length;
    const once = (c: number): number => 0.6 * c + 0.27 * [10].filter((at) => c >= at).length;
    expect(judgedBy(judgePulse, played(twice, { clock: alike })).observations).toEqual([]);
    expect(judgedBy(judgePulse, played(twice, { clock: once })).observations.map(({ kind }) => kind)).toEqual(['hesitation']);
  });
});

describe('rushing and dragging over bars 6 to 9, by how far the last bar gets', () => {
  const share = (by: number, kind: string): number => foundShare(judgePulse, players().map((seed) => takeOf(SIXTEEN, seed, running(by))), { kind, bars: [6, 9] });

  it.each([0, 0.03, 0.06, 0.1])('%f: silent (3 to 6 %% is just heard; within a tenth is as marked)', (by) => {
    expect(share(by, 'rushing')).toBe(0);
  });

  it.each([0.25, 0.4])('%f quicker: found', (by) => {
    expect(share(by, 'rushing')).toBeGreaterThanOrEqual(0.95);
  });

  it('places are the bars where it is', () => {
    const { places, text } = oneOf(judgedBy(judgePulse, takeOf(SIXTEEN, 4, running(0.4))), 'rushing');
    expect(places).toHaveLength(1);
    expect(places[0]?.fromBar).toBeGreaterThanOrEqual(5);
    expect(places[0]?.toBar).toBe(8);
    expect(text).toMatch(/^Bars [67]–9: the tempo runs away\.$/);
  });

  it('a new tempo that is written is none', () => {
    const faster = marked(SIXTEEN, tempoMark('quarter = 100', { value: 100 }), tempoMark('quarter = 140', { bar: 9, value: 140 }));
    expect(judgedBy(judgePulse, takeOf(faster, 1, barsClock((bar) => (bar < 8 ? 0.6 : 0.43)))).observations).toEqual([]);
  });
});

describe('a tempo that creeps over the whole', () => {
  const creeping = (by: number): readonly string[] => kinds(barsClock((bar) => 0.6 / (1 + (by * bar) / 15)));

  it('by a tenth: silent; by three tenths: said once', () => {
    expect(creeping(0.1)).toEqual([]);
    expect(creeping(0.3)).toEqual(['creepsUp']);
    expect(creeping(-0.25)).toEqual(['creepsDown']);
  });

  it('to and fro is no creeping', () => {
    expect(kinds(barsClock((bar) => 0.6 / (1 + (0.08 * Math.min(bar, 15 - bar)) / 8)))).toEqual([]);
  });
});

describe('an unsteady pulse', () => {
  it('bars that jump by a quarter, all along', () => {
    const { text } = oneOf(judgedBy(judgePulse, takeOf(SIXTEEN, 1, barsClock((bar) => [0.6, 0.75, 0.55, 0.7][bar % 4] ?? 0.6))), 'unsteady');
    expect(text).toMatch(/^Bars .*: the tempo jumps from bar to bar\.$/);
  });

  it('steady playing is praised for it', () => {
    const judged = judgedBy(judgePulse, takeOf(SIXTEEN, 1, steady(0.6)));
    expect(judged.summary).toBe('The pulse is steady.');
    expect(judged.praise?.map(({ text }) => text)).toEqual(['The pulse holds from beginning to end.']);
  });

  it('but not where the pupil broke off and went back', () => {
    const again = played(SIXTEEN, { clock: steady(0.6), visits: [0, 9] }, { clock: (c) => 5 + 0.6 * c, visits: [8, 15] });
    expect(judgedBy(judgePulse, again).praise).toEqual([]);
  });

  it('the concern rises before anything is said', () => {
    const concern = (by: number): number => {
      const { concern: value } = judgedBy(judgePulse, takeOf(SIXTEEN, 1, barsClock((bar) => 0.6 * (1 + by * (bar % 2)))));
      return value.measured ? value.value : NaN;
    };
    expect(concern(0)).toBeLessThan(concern(0.03));
    expect(concern(0.03)).toBeLessThan(concern(0.06));
  });
});

it('slower in the hard bars is named once', () => {
  // octaves in bars 4, 7, 10 and 13, each of them a sixth slower
  const hard = [3, 6, 9, 12];
  const places = hard.map((bar) => ({ bars: [String(bar + 1), String(bar + 1)] as const, fromBar: bar, toBar: bar }));
  const pitfall = { kind: 'jump' as const, hand: 'left' as const, bars: ['4', '4'] as const, places, weight: 0.7, sentence: '', practise: '', counting: null };
  const piece = takeOf(SIXTEEN, 1, barsClock((bar) => (hard.includes(bar) ? 0.72 : 0.6)));
  const { observations } = judgedBy(judgePulse, piece, { ...analysisOf(SIXTEEN), pitfalls: [pitfall], phrases: [], sections: [] });
  const found = observations.filter(({ kind }) => kind === 'slowerWhereHard');
  expect(found).toHaveLength(1);
  expect(found[0]?.text).toBe('You slow down where it gets hard: bars 4, 7, 10 and 13.');
});

describe.each(AWKWARD)('$name', ({ piece }) => {
  it('is judged: a concern between 0 and 1, or a reason', () => {
    const { concern, observations } = judgedBy(judgePulse, piece);
    if (concern.measured) expect(concern.value >= 0 && concern.value <= 1).toBe(true);
    else expect(observations).toEqual([]);
    for (const { weight, text, places } of observations) expect(weight > 0 && weight <= 1 && text !== '' && places.length > 0).toBe(true);
  });
});

describe('a place that was expected to stop a hand', () => {
  const pitfall = { kind: 'jump' as const, hand: 'left' as const, bars: ['7', '7'] as const, places: [{ bars: ['7', '7'] as const, fromBar: 6, toBar: 6 }], weight: 0.8, sentence: '', practise: '', counting: null };
  const withJump = { ...analysisOf(SIXTEEN), pitfalls: [pitfall] };

  it('is praised where it was in time', () => {
    expect(judgedBy(judgePulse, takeOf(SIXTEEN, 1, steady(0.6)), withJump).praise?.[0]).toMatchObject({ hand: 'left', text: 'Left hand, bar 7: the jump in time.' });
  });

  it('is named as the reason of a wait, and then not praised', () => {
    const judged = judgedBy(judgePulse, takeOf(SIXTEEN, 1, (c) => 0.6 * c + (c >= 24 ? 0.9 : 0)), withJump);
    expect(oneOf(judged, 'hesitation').text).toBe('You wait before bar 7 for the jump.');
    expect(judged.praise).toEqual([]);
  });

  it('that stops it each time', () => {
    const slow = (startS: number) => (c: number): number => startS + 0.6 * c + (c >= 24 ? 0.9 : 0);
    const judged = judgedBy(judgePulse, played(SIXTEEN, { clock: slow(0) }, { clock: slow(60) }), withJump);
    expect(oneOf(judged, 'hesitation').text).toBe('You wait before bar 7 for the jump each time.');
  });
});

it('nothing measured, nothing said', () => {
  const whole = analysed(played(scoreOf([]), { clock: steady(1) }));
  expect(judgePulse({ ...whole, measures: NO_MEASURES, language: 'british' }).concern).toMatchObject({ measured: false });
});
