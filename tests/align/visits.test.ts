import { describe, expect, it } from 'vitest';
import { pairNotes } from '../../src/align/pairNotes.js';
import { layOutSlots } from '../../src/align/slots.js';
import { cutByHands, handsOf, occurrencesByVisit, visitRuns, type RunVisit } from '../../src/align/visits.js';
import { presses, score } from './build.js';
import { plays, tune } from './tune.js';

/** A bar of four notes in either hand, of which so many were played. */
const visit = (index: number, right: number, left: number, written = 4): RunVisit => ({ visit: index, attempt: 1, rightWritten: written, rightPlayed: right, leftWritten: written, leftPlayed: left });

describe('hands over some bars', () => {
  it('are both, one, or none to speak of', () => {
    expect(handsOf([visit(0, 4, 4)])).toBe('both');
    expect(handsOf([visit(0, 4, 0)])).toBe('right');
    expect(handsOf([visit(0, 0, 3)])).toBe('left');
    expect(handsOf([visit(0, 0, 0)])).toBe('both');
  });

  it('are silent with a tenth of their notes played, not with more', () => {
    // 40 notes written: 4 are a tenth
    const bars = (left: number): RunVisit[] => [visit(0, 40, left, 40)];
    expect(handsOf(bars(4))).toBe('right');
    expect(handsOf(bars(5))).toBe('both');
  });

  it('are not silent where nothing is written for them', () => {
    expect(handsOf([{ ...visit(0, 4, 0), leftWritten: 0 }])).toBe('both');
  });
});

describe('cuts where a hand falls silent', () => {
  it('take two bars and six notes', () => {
    expect(cutByHands([visit(0, 4, 4), visit(1, 4, 0), visit(2, 4, 0), visit(3, 4, 4)])).toEqual([[0, 0], [1, 2], [3, 3]]);
    // one bar alone, of eight notes
    expect(cutByHands([visit(0, 4, 4), visit(1, 8, 0, 8), visit(2, 4, 4)])).toEqual([[0, 2]]);
    // two bars of two notes: four, then two bars of three: six
    expect(cutByHands([visit(0, 4, 4), visit(1, 2, 0, 2), visit(2, 2, 0, 2), visit(3, 4, 4)])).toEqual([[0, 3]]);
    expect(cutByHands([visit(0, 4, 4), visit(1, 3, 0, 3), visit(2, 3, 0, 3), visit(3, 4, 4)])).toEqual([[0, 0], [1, 2], [3, 3]]);
  });

  it('follow from one hand to the other', () => {
    expect(cutByHands([visit(0, 4, 0), visit(1, 4, 0), visit(2, 0, 4), visit(3, 0, 4)])).toEqual([[0, 1], [2, 3]]);
  });

  it('take an upbeat along in which the silent hand has nothing to play', () => {
    const upbeat: RunVisit = { ...visit(0, 2, 0), rightWritten: 2, leftWritten: 0 };
    expect(cutByHands([upbeat, visit(1, 4, 0), visit(2, 4, 0), visit(3, 4, 4)])).toEqual([[0, 2], [3, 3]]);
  });

  it('leave no stretch in which nothing was played', () => {
    // bar 3 is the left hand's alone and was missed: it ends the left hand's silence, and does not begin the right hand's
    const missed: RunVisit = { ...visit(2, 0, 0), rightWritten: 0 };
    expect(cutByHands([visit(0, 4, 0), visit(1, 4, 0), missed, visit(3, 0, 4), visit(4, 0, 4)])).toEqual([[0, 2], [3, 4]]);
  });

  it('cover all, also where there is nothing', () => {
    expect(cutByHands([visit(0, 4, 4)])).toEqual([[0, 0]]);
    expect(cutByHands([visit(0, 4, 0), visit(1, 4, 0)])).toEqual([[0, 1]]);
  });
});

describe('runs in bars', () => {
  const read = tune();
  const slots = layOutSlots(read);
  // bars 1-2 with both hands, then bar 2 to the second beat with the right hand alone
  const struck = presses(plays(1, 2, 0), plays(2, 2, 6, { hand: 'right' }).slice(0, 2));
  const both = { firstPress: 0, lastPress: 15, presses: Array.from({ length: 16 }, (_, i) => i), slots: Array.from({ length: 16 }, (_, i) => Math.floor(i / 2)) };
  const alone = { firstPress: 16, lastPress: 17, presses: [16, 17], slots: [4, 5] };
  const runs = visitRuns(read, pairNotes(read, slots, struck, [both, alone]));

  it('count what was written and played of each hand, and the attempts', () => {
    const four = { rightWritten: 4, rightPlayed: 4, leftWritten: 4, leftPlayed: 4 };
    expect(runs.map((run) => run.visits)).toEqual([
      [{ visit: 0, attempt: 1, ...four }, { visit: 1, attempt: 1, ...four }],
      [{ visit: 1, attempt: 2, ...four, rightPlayed: 2, leftPlayed: 0 }],
    ]);
  });

  it('know the notes of each bar of the playing order', () => {
    const lists = occurrencesByVisit(score(['C4/2 D4/2', 'r/4', 'E4/4']));
    expect(lists).toEqual([[0, 1], [], [2]]);
  });
});
