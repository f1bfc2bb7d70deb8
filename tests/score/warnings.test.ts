import { describe, expect, it } from 'vitest';
import { backup, barline, bars, note, partwise, repeatEnd } from './build.js';
import { expectWarning, onsets, readBars, readText, warningTexts } from './read.js';

const plain = note('C4', 8);

describe('odd but usable', () => {
  it('an over-full bar is read as long as it is', () => {
    const score = readBars([note('C4', 10), note('D4', 8, { id: 'x' })]);
    expect(onsets(score)).toMatchObject({ x: 5 });
    expectWarning(score, '1', /more than its time signature/);
  });

  it('a short bar in the middle is read as short as it is', () => {
    const score = readBars([plain, note('C4', 6), note('D4', 8, { id: 'x' }), plain]);
    expect(onsets(score)).toMatchObject({ x: 7 });
    expectWarning(score, '2', /less than its time signature/);
  });

  it('upbeats at the edge of a section and split bars are not odd', () => {
    expect(warningTexts(readBars([plain, note('C4', 6) + repeatEnd, note('D4', 2), plain, plain]))).toEqual([]);
    expect(warningTexts(readBars([plain, note('C4', 3), note('D4', 5), plain]))).toEqual([]);
    expect(warningTexts(readBars([plain, { content: note('C4', 3), attributes: 'number="2" implicit="yes"' }, plain]))).toEqual([]);
  });

  it('a difference of a sixteenth of a crotchet is rounding, more is not', () => {
    const inBar = (length: number): readonly string[] =>
      warningTexts(readText(partwise(bars([`<attributes><divisions>16</divisions></attributes>${note('C4', length)}`]))));
    expect(inBar(65)).toEqual([]);
    expect(inBar(66)).toHaveLength(1);
  });

  it('a slur that never closes', () => {
    const score = readBars([note('C4', 8, { signs: '<slur type="start" number="1"/>' }), plain]);
    expectWarning(score, '1', /slur/);
  });

  it('slurs that close, also across voices and over one another, are quiet', () => {
    const score = readBars([
      note('C4', 4, { signs: '<slur type="start" number="1"/>' }) +
        note('D4', 4, { signs: '<slur type="stop" number="1"/><slur type="start" number="1"/>' }) +
        backup(8) +
        note('C3', 8, { voice: '2', signs: '<slur type="start" number="2"/>' }),
      note('E4', 8, { voice: '2', signs: '<slur type="stop" number="1"/><slur type="stop" number="2"/>' }),
    ]);
    expect(score.warnings).toEqual([]);
  });

  it('a step back beyond the start of the bar', () => {
    const score = readBars([note('C4', 4) + backup(8) + note('C3', 8, { id: 'x', voice: '2' })]);
    expect(onsets(score)).toMatchObject({ x: 0 });
    expect(warningTexts(score)).toEqual([expect.stringContaining('steps back')]);
  });

  it('bars that the playing order never reaches', () => {
    // the second ending has no first one and no repeat to lead to it
    const score = readBars([
      plain,
      `${barline('<ending number="2" type="start"/>', 'left')}${plain}${barline('<ending number="2" type="stop"/>')}`,
      plain,
    ]);
    expectWarning(score, '2', /never lead/);
  });

  it('a part that never names its divisions', () => {
    const text = partwise(
      '<measure number="1"><note><pitch><step>C</step><octave>4</octave></pitch><duration>4</duration></note></measure>',
    );
    expect(warningTexts(readText(text))).toEqual([expect.stringContaining('divisions')]);
  });

  it('the same oddity in many bars is one warning that names the first ones and counts the rest', () => {
    const score = readBars(Array.from({ length: 9 }, () => note('C4', 10)));
    expectWarning(score, '1', /\(bars 1, 2, 3, 4, 5, 6 and 3 more\)$/);
  });

  it('a key signature of single accidentals', () => {
    const score = readBars([
      `<attributes><divisions>2</divisions><key><key-step>F</key-step><key-alter>1</key-alter></key></attributes>${plain}`,
    ]);
    expect(score.bars[0]!.key.fifths).toBe(0);
    expect(warningTexts(score)).toEqual([expect.stringContaining('key signature')]);
  });
});
