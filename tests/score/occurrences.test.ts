import { describe, expect, it } from 'vitest';
import { backup, barline, cue, grace, note, repeatEnd, repeatStart, rest, tieStart, tieStop } from './build.js';
import { expectWarning, readBars, sounds, warningTexts } from './read.js';

// What sounds along the playing order; rows are [first id, pass, onset, end, MIDI], in crotchets, worked by hand.

const both = tieStop + tieStart;

describe('ties along the playing order', () => {
  it('a chain of ties over bar lines is one sound with all its notes', () => {
    const score = readBars([
      note('C4', 8, { id: 'a', inside: tieStart }),
      note('C4', 8, { id: 'b', inside: both }),
      note('C4', 8, { id: 'c', inside: tieStop }),
    ]);
    expect(sounds(score)).toEqual([['a', 1, 0, 12, 60]]);
    expect(score.occurrences[0]!.tied).toEqual([0, 1, 2]);
    expect(score.warnings).toEqual([]);
  });

  it('a tie into the second ending joins the note that sounded just before', () => {
    const score = readBars([
      note('C4', 8, { id: 'a', inside: tieStart }),
      `${barline('<ending number="1" type="start"/>', 'left')}${note('C4', 8, { id: 'b', inside: tieStop })}${barline('<ending number="1" type="stop"/><repeat direction="backward"/>')}`,
      `${barline('<ending number="2" type="start"/>', 'left')}${note('C4', 8, { id: 'c', inside: tieStop })}${barline('<ending number="2" type="stop"/>')}`,
    ]);
    expect(sounds(score)).toEqual([
      ['a', 1, 0, 8, 60],
      ['a', 2, 8, 16, 60],
    ]);
    expect(score.occurrences.map((o) => o.tied)).toEqual([
      [0, 1],
      [0, 2],
    ]);
    expect(score.warnings).toEqual([]);
  });

  it('a tie into a repeated bar sounds anew the second time, when its partner did not sound just before', () => {
    const score = readBars([
      note('C4', 8, { id: 'a', inside: tieStart }),
      repeatStart + note('C4', 4, { id: 'b', inside: tieStop }) + note('D4', 4, { id: 'd' }) + repeatEnd,
    ]);
    expect(sounds(score)).toEqual([
      ['a', 1, 0, 6, 60],
      ['d', 1, 6, 8, 62],
      ['b', 2, 8, 10, 60],
      ['d', 2, 10, 12, 62],
    ]);
    expect(score.warnings).toEqual([]);
  });

  it('a tie out of a repeated bar back to its start joins when the file says so', () => {
    const score = readBars([
      note('C4', 4, { id: 'a', inside: tieStop }) + note('D4', 2, { id: 'd' }) + note('C4', 2, { id: 'z', inside: tieStart }) + repeatEnd,
      rest(8),
    ]);
    expect(sounds(score).map((row) => row.slice(0, 4))).toEqual([
      ['a', 1, 0, 2],
      ['d', 1, 2, 3],
      ['z', 1, 3, 6],
      ['d', 2, 6, 7],
      ['z', 2, 7, 8],
    ]);
  });

  it('a tie without a partner is a sound of its own, with a warning', () => {
    const stop = readBars([note('C4', 8, { id: 'a' }), note('C4', 8, { id: 'b', inside: tieStop })]);
    expect(sounds(stop)).toHaveLength(2);
    expectWarning(stop, '2', /tie/);
    const start = readBars([note('C4', 8, { id: 'a', inside: tieStart }), note('D4', 8, { id: 'b' })]);
    expect(sounds(start)).toHaveLength(2);
    expectWarning(start, '1', /tie/);
  });

  it('a tie does not reach over a rest', () => {
    const score = readBars([note('C4', 4, { id: 'a', inside: tieStart }) + rest(1) + note('C4', 3, { id: 'b', inside: tieStop })]);
    expect(sounds(score).map(([id]) => id)).toEqual(['a', 'b']);
  });

  it('small notes of a written-out arpeggio, tied into the chord, are one sound each though the others come between', () => {
    // semiquavers would be one division of four; here C4 ends a quarter of a crotchet before the chord begins
    const head = '<attributes><divisions>4</divisions></attributes>';
    const score = readBars([
      head +
        note('C4', 1, { id: 'a', inside: tieStart }) +
        note('E4', 1, { id: 'b', inside: tieStart }) +
        note('C4', 14, { id: 'c', inside: tieStop }) +
        note('E4', 14, { id: 'd', inside: tieStop, chord: true }),
    ]);
    expect(sounds(score)).toEqual([
      ['a', 1, 0, 4, 60],
      ['b', 1, 0.25, 4, 64],
    ]);
  });

  it('a tie may lead into another voice or stave', () => {
    const score = readBars([
      note('C4', 4, { id: 'a', voice: '2', staff: 1, inside: tieStart }) +
        note('C4', 4, { id: 'b', voice: '5', staff: 2, inside: tieStop }),
    ]);
    expect(sounds(score)).toEqual([['a', 1, 0, 4, 60]]);
    expect(score.occurrences[0]!.staff).toBe(1);
  });

  it('of two voices in unison each tie stays in its own voice, whichever the file names first', () => {
    const score = readBars([
      note('C4', 8, { inside: tieStart }) + backup(8) + note('C4', 8, { voice: '2', inside: tieStart }),
      note('C4', 4, { voice: '2', inside: tieStop }) + rest(4, { voice: '2' }) + backup(8) + note('C4', 8, { inside: tieStop }),
    ]);
    // notes 0 and 3 are voice 1 (to the end of bar 2), notes 1 and 2 voice 2 (to its middle)
    expect(score.occurrences.map((o) => [o.tied, o.endTick])).toEqual([
      [[0, 3], 16],
      [[1, 2], 12],
    ]);
  });

  it('a tie whose end stands earlier in the file than its start (another voice) is joined in order of time', () => {
    const score = readBars([
      rest(4) + note('C4', 4, { id: 'late', inside: tieStop }) + backup(8) + note('C4', 4, { id: 'early', voice: '2', inside: tieStart }),
    ]);
    expect(sounds(score)).toEqual([['early', 1, 0, 4, 60]]);
  });

  it('a grace note tied to its main note is one sound', () => {
    const score = readBars([grace('C4', { id: 'g', inside: tieStart }) + note('C4', 8, { id: 'm', inside: tieStop })]);
    expect(sounds(score)).toEqual([['g', 1, 0, 4, 60]]);
  });
});

describe('what counts as a sound, and its order', () => {
  it('two voices in unison give two sounds', () => {
    const score = readBars([note('C4', 8, { id: 'a' }) + backup(8) + note('C4', 8, { id: 'b', voice: '2' })]);
    expect(sounds(score)).toEqual([
      ['a', 1, 0, 4, 60],
      ['b', 1, 0, 4, 60],
    ]);
  });

  it('cue notes give none', () => {
    expect(readBars([cue('C4', 8)]).occurrences).toEqual([]);
  });

  it('hidden notes sound', () => {
    const score = readBars([note('C4', 8, { attributes: 'print-object="no"' })]);
    expect(score.notes[0]!.hidden).toBe(true);
    expect(score.occurrences).toHaveLength(1);
  });

  it('the order is onset, then grace notes before their main note, then pitch', () => {
    const score = readBars([
      note('E4', 8, { id: 'e' }) +
        note('G3', 8, { id: 'g', chord: true }) +
        backup(8) +
        grace('C6', { id: 'x', voice: '2' }) +
        note('C4', 8, { id: 'c', voice: '2' }),
    ]);
    expect(sounds(score).map(([id]) => id)).toEqual(['x', 'g', 'c', 'e']);
  });

  it('a repeat writes every sound out again, with its pass and its own time', () => {
    const score = readBars([note('C4', 8, { id: 'a' }) + repeatEnd, note('D4', 8, { id: 'b' })]);
    expect(sounds(score)).toEqual([
      ['a', 1, 0, 4, 60],
      ['a', 2, 4, 8, 60],
      ['b', 1, 8, 12, 62],
    ]);
    expect(score.occurrences.map((o) => [o.index, o.visitIndex, o.barIndex])).toEqual([
      [0, 0, 0],
      [1, 1, 0],
      [2, 2, 1],
    ]);
  });

  it('a score of rests alone is read, with a warning', () => {
    const score = readBars([rest(8), rest(8)]);
    expect(score.occurrences).toEqual([]);
    expect(score.rests).toHaveLength(2);
    expect(warningTexts(score)).toEqual([expect.stringContaining('rests alone')]);
  });

  it('a piece that grows beyond all measure when its repeats are written out is refused', () => {
    // 1600 bars of 64 plays each would be 102,400 bars
    const bomb = Array.from({ length: 1600 }, () => note('C4', 8) + barline('<repeat direction="backward" times="64"/>'));
    expect(() => readBars(bomb)).toThrow(expect.objectContaining({ name: 'InputError', code: 'too-large' }));
  });
});
