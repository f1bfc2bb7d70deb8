import { describe, expect, it } from 'vitest';
import { areTempoWords } from '../../src/score/tempo.js';
import { printedTempos, tempoChange, tempoRange, type Direction } from '../../src/score/index.js';
import { run, right, scoreOf } from '../measure/piece.js';

describe('how fast a word is (common practice)', () => {
  // each in the middle of what method books and metronomes give for it
  it.each([
    ['Largo', 50], ['Lento', 52], ['Adagio', 66], ['Andante', 80], ['Andantino', 84], ['Moderato', 100], ['Allegretto', 110], ['Allegro', 132], ['Vivace', 150], ['Presto', 180], ['Prestissimo', 200],
    ['Allegro ma non troppo', 120], ['Langsam', 50], ['Lebhaft', 150], ['Tempo di marcia', 112],
  ])('%s takes in %i beats a minute', (words, beats) => {
    const range = tempoRange(words);
    expect(range !== null && range.least <= beats && beats <= range.most).toBe(true);
  });

  it('slower words stand for slower beats', () => {
    const middles = ['Grave', 'Largo', 'Adagio', 'Andante', 'Moderato', 'Allegro', 'Presto'].map((words) => {
      const range = tempoRange(words);
      return range === null ? NaN : (range.least + range.most) / 2;
    });
    expect(middles).toEqual([...middles].sort((a, b) => a - b));
  });

  it('longer words are not taken for those they begin with', () => {
    expect(tempoRange('Allegretto')).not.toEqual(tempoRange('Allegro'));
    expect(tempoRange('Larghetto')).not.toEqual(tempoRange('Largo'));
    expect(tempoRange('Prestissimo')).not.toEqual(tempoRange('Presto'));
  });

  it.each(['dolce', 'sotto voce', 'rit.', 'a tempo', 'Più lento', 'meno allegro', 'etwas langsamer', ''])('"%s" names no tempo of its own', (words) => {
    expect(tempoRange(words)).toBeNull();
  });
});

describe('what a word changes', () => {
  it.each([
    ['rit.', 'slowing'], ['poco ritardando', 'slowing'], ['rallentando', 'slowing'], ['calando', 'dying'], ['smorzando', 'dying'], ['accel.', 'quickening'], ['stringendo', 'quickening'],
    ['più mosso', 'quicker'], ['meno mosso', 'slower'], ['a tempo', 'back'], ['Tempo I', 'back'], ["L'istesso tempo", 'back'], ['ad lib.', 'free'], ['Cadenza', 'free'],
  ] as const)('%s: %s', (words, change) => {
    expect(tempoChange(words)).toBe(change);
  });

  it.each(['Allegro', 'Ritmico e marcato', 'con pedale', ''])('"%s" nothing', (words) => {
    expect(tempoChange(words)).toBeNull();
  });

  it('every word of change that a score file may hold alone is read as a tempo mark', () => {
    for (const words of ['rit.', 'accel.', 'a tempo', 'meno mosso', 'più mosso', 'calando']) expect(areTempoWords(words)).toBe(true);
  });
});

describe('printed marks of a score', () => {
  const mark = (kind: Direction['kind'], text: string, onsetTick: number, value: number | null = null): Direction => ({ kind, barIndex: Math.floor(onsetTick / 1920), onsetTick, untilTick: null, staff: 1, text, value });
  const score = { ...scoreOf(run(right, 16)), directions: [
    mark('tempo', '', 0, 120), mark('words', 'dolce', 0), mark('words', 'dim. e rit.', 3840), mark('tempo', 'Andante quarter. = 60', 1920, 90), mark('tempo', 'Vivace', 5760, 160), mark('dynamics', 'p', 0),
  ] };

  it('in order, with their beat; no speed for playing back, no other words', () => {
    expect(printedTempos(score).map(({ tick, words, crotchetsAMinute, unit, change }) => [tick, words, crotchetsAMinute, unit.name, change])).toEqual([
      [1920, 'Andante', 90, 'dottedCrotchet', null],
      [3840, 'dim. e rit.', null, 'crotchet', 'slowing'],
      [5760, 'Vivace', null, 'crotchet', null],
    ]);
  });
});
