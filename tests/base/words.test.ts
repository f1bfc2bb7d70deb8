import { describe, expect, it } from 'vitest';
import { countInWords, listInWords, ordinalInWords, timesInWords, spokenIn, word } from '../../src/base/index.js';

describe('trade words', () => {
  it('are British unless American is asked for', () => {
    expect([word('bar'), word('crotchet'), word('dottedCrotchet')]).toEqual(['bar', 'crotchet', 'dotted crotchet']);
    expect([word('bar', 'american'), word('crotchet', 'american')]).toEqual(['measure', 'quarter note']);
  });
});

describe('a sentence in the other English', () => {
  it.each([
    ['An upbeat and two bars; Bar by bar, staves and stave.', 'A pickup and two measures; Measure by measure, staves and staff.'],
    ['A quaver, a dotted crotchet, three crotchets; a semiquaver.', 'An eighth note, a dotted quarter note, three quarter notes; a sixteenth note.'],
    ['An imperfect cadence over a pedal note.', 'A half cadence over a pedal point.'],
    ['Practise a quaver.', 'Practice an eighth note.'],
    // a bar line is one in both, and other words that hold these stay whole
    ['Tied over the bar line; a barcarolle for the barn.', 'Tied over the bar line; a barcarolle for the barn.'],
  ])('%s', (british, american) => {
    expect(spokenIn(british, 'american')).toBe(american);
    expect(spokenIn(british, 'british')).toBe(british);
  });
});

describe('words put together from the table', () => {
  it('get the article that goes with them', () => {
    expect(spokenIn('An pickup; within a eighth note; a half note.', 'american')).toBe('A pickup; within an eighth note; a half note.');
  });
});

describe('numbers in sentences', () => {
  it('are words up to twelve', () => {
    expect([0, 1, 12, 13].map(countInWords)).toEqual(['no', 'one', 'twelve', '13']);
    expect([1, 2, 3, 20].map(timesInWords)).toEqual(['once', 'twice', 'three times', '20 times']);
  });

  it('take the right ending as ordinals beyond twelve', () => {
    expect([1, 12, 13, 21, 22, 23, 111, 112].map(ordinalInWords)).toEqual(['first', 'twelfth', '13th', '21st', '22nd', '23rd', '111th', '112th']);
  });

  it('and lists read as spoken', () => {
    expect([[], ['A'], ['A', 'B'], ['A', 'B', 'C']].map(listInWords)).toEqual(['', 'A', 'A and B', 'A, B and C']);
  });
});
