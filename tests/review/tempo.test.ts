import { describe, expect, it } from 'vitest';
import { measured } from '../../src/base/index.js';
import { paceInWords, tempoInWords, tempoOf } from '../../src/review/index.js';
import { barNames, beatUnit } from '../../src/score/index.js';
import { facts, smallScore } from './material.js';
import { NO_MEASURES } from '../measure/nothing.js';

describe('the beat', () => {
  it.each([
    [4, 4, 'crotchet', 1], [2, 2, 'minim', 2], [3, 8, 'quaver', 0.5], [6, 8, 'dottedCrotchet', 1.5], [9, 8, 'dottedCrotchet', 1.5], [6, 4, 'dottedMinim', 3], [12, 16, 'dottedQuaver', 0.75], [3, 4, 'crotchet', 1],
  ])('of %i/%i is a %s', (beats, beatType, name, crotchets) => {
    expect(beatUnit({ beats, beatType, symbol: null })).toEqual({ name, crotchets });
  });
});

describe('the tempo', () => {
  const tempo = (...values: number[]) => tempoOf(smallScore(), { ...NO_MEASURES, bars: values.map((value) => facts({ tempo: measured(value) })) });

  it('is that of the middle bar', () => {
    // middle of 70, 72, 120 is 72
    expect(tempoInWords(tempo(72, 120, 70))).toBe('about crotchet = 72, no tempo marked');
    expect(tempoInWords(tempo(72), 'american')).toBe('about quarter note = 72, no tempo marked');
  });

  it('is marked by what is printed: a speed set for playing back is none', () => {
    const score = smallScore();
    const mark = { kind: 'tempo', barIndex: 0, onsetTick: 0, untilTick: null, staff: null } as const;
    const marked = (text: string) => tempoInWords(tempoOf({ ...score, directions: [{ ...mark, text, value: 96 }] }, { ...NO_MEASURES, bars: [facts({ tempo: measured(72) })] }));
    expect(marked('')).toBe('about crotchet = 72, no tempo marked');
    expect(marked('Andantino')).toBe('about crotchet = 72, marked Andantino');
    expect(marked('Andantino quarter = 96')).toBe('about crotchet = 72, marked 96');
    // played 72 crotchets a minute are 48 dotted crotchets; 96 crotchets are 64 dotted ones, as it is printed
    expect(marked('Vivace quarter. = 64')).toBe('about dotted crotchet = 48, marked 64');
  });

  it('is that under the first mark, where a span was played under it', () => {
    const mark = { tick: 0, barIndex: 0, change: null, words: 'Vivace', crotchetsAMinute: 90, unit: { name: 'dottedCrotchet', crotchets: 1.5 } } as const;
    const span = { mark, stretch: 0, fromVisit: 0, toVisit: 5, played: measured(84) };
    const measures = { ...NO_MEASURES, bars: [facts({ tempo: measured(72) })], pulse: { ...NO_MEASURES.pulse, spans: [{ ...span, toVisit: 1, played: measured(60) }, span] } };
    expect(tempoOf(smallScore(), measures).played).toEqual(measured(84));
    expect(tempoOf(smallScore(), { ...measures, pulse: { ...measures.pulse, spans: [] } }).played).toEqual(measured(72));
  });

  it('says why where it was not measured', () => {
    expect(tempoInWords(tempo())).toBe('tempo not measured, because no bar had enough notes');
  });

  it.each([
    [74, 'slow'], [75, 'a little slow'], [89, 'a little slow'], [90, 'at the marked tempo'], [110, 'at the marked tempo'], [111, 'faster than marked'],
  ])('of %i where 100 is marked is %s', (value, words) => {
    expect(paceInWords({ ...tempo(value), marked: 100 })).toBe(words);
  });
});

describe('bars', () => {
  const bar = { ...smallScore().bars[0]! };
  const score = { bars: [{ ...bar, number: '0', implicit: true }, { ...bar, index: 1, number: '1' }, { ...bar, index: 2, number: 'X1', implicit: true }, { ...bar, index: 3, number: '12a' }] };

  it('are named as spoken', () => {
    const names = barNames(score);
    expect([0, 1, 2, 3].map((index) => names.long(index))).toEqual(['the upbeat', 'bar 1', 'the second half of bar 1', 'bar 12a']);
    expect(names.range(1, 3)).toBe('bars 1–12a');
    expect(names.range(0, 1)).toBe('the upbeat to bar 1');
    expect(barNames(score, 'american').long(1)).toBe('measure 1');
  });
});
