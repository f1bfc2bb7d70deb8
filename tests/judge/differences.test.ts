import { describe, expect, it } from 'vitest';
import { differences, slipsInWords, triesInWords, tryInWords } from '../../src/judge/index.js';
import { facts, material, stretch } from '../review/material.js';

// visit 1 is bar 2 the first time: its occurrences are 5 (G 2, left), 6-9 (F sharp 4, right)
const LEFT = 5;
const RIGHT = 6;

describe('what differs from the score', () => {
  it('names a wrong note for the written one, once, though it is missed and added', () => {
    const found = differences(material({
      route: [stretch(0, 0, 1)], bars: [{}], keys: [65],
      missed: [{ occurrence: RIGHT, stretch: 0, attempt: 1 }], added: [{ note: 0, stretch: 0, near: RIGHT, instead: true }],
    }));
    expect(found.map(({ hand, text }) => [hand, text])).toEqual([['right', 'F natural for F sharp']]);
  });

  it('tells missing notes of one bar together, hands apart', () => {
    const found = differences(material({ route: [stretch(0, 0, 1)], bars: [{}], missed: [LEFT, RIGHT, RIGHT + 1].map((occurrence) => ({ occurrence, stretch: 0, attempt: 1 })) }));
    expect(found.map(({ hand, text }) => [hand, text])).toEqual([['right', 'F sharp missing (twice)'], ['left', 'G missing']]);
  });

  it('tells an octave slip and an added note', () => {
    const found = differences(material({
      route: [stretch(0, 0, 1)], bars: [{}], keys: [31, 68],
      pairs: [{ occurrence: LEFT, note: 0, stretch: 0, attempt: 1, octaveSlip: -1 }], added: [{ note: 1, stretch: 0, near: RIGHT, instead: false }],
    }));
    expect(found.map(({ text }) => text)).toEqual(['G sharp added', 'G an octave too low']);
  });

  it('makes one entry of the same slip in several tries', () => {
    const bars = [facts({}), facts({ stretch: 1, attempt: 2 }), facts({ stretch: 2, attempt: 3 })];
    const found = differences(material({ route: [stretch(0, 0, 1), stretch(1, 1, 1), stretch(2, 1, 1)], bars, missed: [0, 2].map((index) => ({ occurrence: LEFT, stretch: index, attempt: index + 1 })) }));
    expect(found).toHaveLength(1);
    expect(found[0]!.visits.map((visit) => visit.attempt)).toEqual([1, 3]);
  });

  it('counts them where more than five differ in one hand', () => {
    const keys = [60, 62, 64, 69, 71, 70];
    const found = differences(material({ route: [stretch(0, 0, 1)], bars: [{}], keys, added: keys.map((_, note) => ({ note, stretch: 0, near: RIGHT, instead: false })) }));
    expect(found.map(({ text }) => text)).toEqual(['six notes are added, about beat 1']);
  });

  it('tells what happened to several notes once, and how often where it was the same', () => {
    expect(slipsInWords(['E added', 'C for D', 'E added', 'G added', 'G added', 'A added', 'B missing'])).toBe('E (twice), G (twice) and A added, C for D, B missing');
    expect(slipsInWords(['B missing (twice)', 'A missing', 'C for D'])).toBe('C for D, B (twice) and A missing');
    expect(slipsInWords(['E added', 'E added', 'F sharp added', 'F sharp added'])).toBe('E and F sharp added (each twice)');
    expect(slipsInWords(['D an octave too low', 'F sharp an octave too low', 'A two octaves too low'])).toBe('D and F sharp an octave too low, A two octaves too low');
  });

  it('counts them where more than eight have slipped in one try, though all alike', () => {
    const found = differences(material({
      route: [stretch(0, 0, 1)], bars: [{}], keys: [60, 60, 60, 60, 60, 60],
      added: Array.from({ length: 6 }, (_, note) => ({ note, stretch: 0, near: RIGHT + 2, instead: false })), missed: [RIGHT, RIGHT + 1, RIGHT + 3].map((occurrence) => ({ occurrence, stretch: 0, attempt: 1 })),
    }));
    // nine slips of two kinds, from the first crotchet of the bar to the fourth
    expect(found.map(({ text }) => text)).toEqual(['nine notes are other than written, from beat 1 to beat 4']);
  });

  it('a note that is added and missing too is in another place', () => {
    expect(slipsInWords(['G added', 'B missing', 'G missing'])).toBe('G in another place, B missing');
  });

  it('is empty where all is as written, and passes over notes before and after the music', () => {
    expect(differences(material({ route: [], keys: [60], added: [{ note: 0, stretch: null, near: null, instead: false }] }))).toEqual([]);
  });
});

describe('tries in words', () => {
  const tries = [facts({}), facts({ attempt: 2 }), facts({ attempt: 3 })];
  const times = [facts({}), facts({ pass: 2 })];

  it('are tries at one time, times where a repeat brings the bar again', () => {
    expect(triesInWords(tries.slice(0, 2), tries.slice(0, 2))).toBe('both tries');
    expect(triesInWords(tries, tries)).toBe('all three tries');
    expect(triesInWords([tries[2]!, tries[0]!], tries)).toBe('first and third try');
    expect(triesInWords([tries[1]!], tries)).toBe('second try');
    expect(triesInWords(times, times)).toBe('both times');
    expect(tryInWords(times[1]!, times)).toBe('second time');
    expect(triesInWords([tries[0]!], [tries[0]!])).toBe('');
  });

  it('name both where a repeat was tried twice', () => {
    const all = [facts({}), facts({ pass: 2 }), facts({ pass: 2, attempt: 2 })];
    expect(tryInWords(all[2]!, all)).toBe('second time, second try');
  });
});
