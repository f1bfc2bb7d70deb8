import { describe, expect, it } from 'vitest';
import { barline, bars, direction, note, partwise, repeatEnd, repeatStart } from './build.js';
import { playedBars, readBars, readText } from './read.js';
import type { BuiltBar } from './build.js';

// Playing order. Rules of MusicXML 4.0 (W3C) unless a test says "common practice"; orders are worked out by hand.

const plain = note('C4', 8);
const sound = (attributes: string): string => `<sound ${attributes}/>`;
const ending = (number: string, type: string, location: 'left' | 'right' = 'right', more = ''): string =>
  barline(`<ending number="${number}" type="${type}"/>${more}`, location);
const open = (number: string): string => ending(number, 'start', 'left');

/** Playing order of a piece of plain bars, each with something before and after its note. */
function order(...barsOfPiece: readonly (readonly [before: string, after: string] | '')[]): string {
  return playedBars(readBars(barsOfPiece.map((bar) => (bar === '' ? plain : bar[0] + plain + bar[1])))).join(' ');
}

describe('repeats', () => {
  it('forward starts and backward ends a repeat, which is played twice (the number recalled, not seen)', () => {
    expect(order('', [repeatStart, ''], ['', repeatEnd], '')).toBe('1 2 3 2 3 4');
  });

  it('a bar line without location is the right one: a repeat start on it begins the next bar', () => {
    expect(
      order('', ['', '<barline><repeat direction="forward"/></barline>'], '', ['', '<barline><repeat direction="backward"/></barline>']),
    ).toBe('1 2 3 4 3 4');
  });

  it('a repeat end on a left bar line ends the bar before', () => {
    expect(order('', '', [barline('<repeat direction="backward"/>', 'left'), ''])).toBe('1 2 1 2 3');
  });

  it('a repeat sign inside a bar that is not split repeats the whole bar, with a warning', () => {
    const score = readBars([note('C4', 4) + '<barline location="middle"><repeat direction="backward"/></barline>' + note('D4', 4), plain]);
    expect(playedBars(score)).toEqual(['1', '1', '2']);
    expect(score.warnings.map((warning) => warning.bar)).toEqual(['1']);
  });

  it('without a forward sign a repeat goes back to the beginning, or to the end of the repeat before', () => {
    expect(order('', ['', repeatEnd], '', ['', repeatEnd])).toBe('1 2 1 2 3 4 3 4');
  });

  it('times is the total number of plays', () => {
    expect(order('', ['', barline('<repeat direction="backward" times="3"/>')], '')).toBe('1 2 1 2 1 2 3');
    expect(order(['', barline('<repeat direction="backward" times="1"/>')], '')).toBe('1 2');
  });

  it('a bar may be a whole repeat', () => {
    expect(order('', [repeatStart, repeatEnd], '')).toBe('1 2 2 3');
  });

  it('forward-repeat of a sound is a repeat start that is not printed', () => {
    expect(order('', [sound('forward-repeat="yes"'), ''], ['', repeatEnd])).toBe('1 2 3 2 3');
  });

  it('each time through a bar is a pass of its own', () => {
    const score = readBars([note('C4', 8, { id: 'a' }) + repeatEnd, note('D4', 8, { id: 'b' })]);
    expect(score.order.map((visit) => [visit.barIndex, visit.pass, visit.startTick])).toEqual([
      [0, 1, 0],
      [0, 2, 8],
      [1, 1, 16],
    ]);
  });

  it('a bar split in two by a repeat in its middle plays its halves apart', () => {
    const halves: readonly BuiltBar[] = [
      { content: plain, attributes: 'number="1"' },
      { content: note('D4', 6) + repeatEnd, attributes: 'number="2"' },
      { content: note('E4', 2), attributes: 'number="2" implicit="yes"' },
      { content: plain, attributes: 'number="3"' },
    ];
    const score = readBars(halves);
    expect(score.order.map((visit) => visit.barIndex)).toEqual([0, 1, 0, 1, 2, 3]);
    expect(score.bars.map((bar) => bar.implicit)).toEqual([false, false, true, false]);
    expect(score.warnings).toEqual([]);
  });
});

describe('endings', () => {
  const back = '<repeat direction="backward"/>';

  it('first and second ending: stop closes the first, discontinue the second', () => {
    expect(order('', [open('1'), ending('1', 'stop', 'right', back)], [open('2'), ending('2', 'discontinue')], '')).toBe('1 2 1 3 4');
  });

  it('an ending of several bars is played or left out whole', () => {
    expect(order('', [open('1'), ''], ['', ending('1', 'stop', 'right', back)], [open('2'), ''], ['', ending('2', 'stop')], '')).toBe(
      '1 2 3 1 4 5 6',
    );
  });

  it('an ending numbered "1,2" is played both times and makes three plays with a third', () => {
    expect(order('', [open('1,2'), ending('1,2', 'stop', 'right', back)], [open('3'), ending('3', 'stop')])).toBe('1 2 1 2 1 3');
    expect(order('', [open('1, 2'), ending('1, 2', 'stop', 'right', back)], [open('3'), ending('3', 'stop')])).toBe('1 2 1 2 1 3');
  });

  it('a range "1-3" and printed forms such as "1.2." name every time', () => {
    expect(order('', [open('1-3'), ending('1-3', 'stop', 'right', back)], [open('4'), ending('4', 'stop')])).toBe('1 2 1 2 1 2 1 3');
    expect(order('', [open('1.2.'), ending('1.2.', 'stop', 'right', back)], [open('3.'), ending('3.', 'stop')])).toBe('1 2 1 2 1 3');
  });

  it('three endings with a repeat sign each', () => {
    expect(
      order(
        '',
        [open('1'), ending('1', 'stop', 'right', back)],
        [open('2'), ending('2', 'stop', 'right', back)],
        [open('3'), ending('3', 'stop')],
      ),
    ).toBe('1 2 1 3 1 4');
  });

  it('a last ending with a repeat sign of its own does not play on for ever', () => {
    expect(order('', [open('1'), ending('1', 'stop', 'right', back)], [open('2'), ending('2', 'stop', 'right', back)], '')).toBe(
      '1 2 1 3 4',
    );
  });

  it('a first ending alone is left out the second time', () => {
    expect(order('', [open('1'), ending('1', 'stop', 'right', back)], '')).toBe('1 2 1 3');
  });

  it('a first ending alone is left out after da capo as well', () => {
    expect(order('', [open('1'), ending('1', 'stop', 'right', back)], ['', sound('dacapo="yes"')])).toBe('1 2 1 3 1 3');
  });

  it('after the last ending a new repeat may begin without a sign', () => {
    expect(order('', [open('1'), ending('1', 'stop', 'right', back)], [open('2'), ending('2', 'stop')], ['', repeatEnd])).toBe(
      '1 2 1 3 4 4',
    );
  });

  it('a row of endings right after another does not lend it its higher numbers', () => {
    const first = [open('1'), ending('1', 'stop', 'right', back)] as const;
    const second = [open('2'), ending('2', 'stop', 'right', back)] as const;
    expect(order('', first, second, [repeatStart + first[0], first[1]], second, [open('3'), ending('3', 'stop')])).toBe('1 2 1 3 4 5 6');
  });

  it('blank numbers count on from the ending before', () => {
    expect(order('', [open(' '), ending(' ', 'stop', 'right', back)], [open(' '), ending(' ', 'stop')])).toBe('1 2 1 3');
  });

  it('an ending that the file never closes ends with its repeat', () => {
    expect(order('', [open('1'), barline(back)], [open('2'), ''], [repeatStart, ''])).toBe('1 2 1 3 4');
  });

  it('two repeats with endings one after another do not mix', () => {
    expect(
      order(
        '',
        [open('1'), ending('1', 'stop', 'right', back)],
        [open('2'), ending('2', 'stop')],
        [repeatStart, ''],
        [open('1'), ending('1', 'stop', 'right', back)],
        [open('2'), ending('2', 'discontinue')],
      ),
    ).toBe('1 2 1 3 4 5 4 6');
  });

  it('bars know the ending that covers them', () => {
    const score = readBars([
      plain,
      open('1') + plain + ending('1', 'stop', 'right', back),
      open('2') + plain + ending('2', 'discontinue'),
      plain,
    ]);
    expect(score.bars.map((bar) => bar.endings)).toEqual([[], [1], [2], []]);
  });
});

describe('jumps', () => {
  it('da capo jumps the first time through and not again', () => {
    expect(order('', '', ['', sound('dacapo="yes"')])).toBe('1 2 3 1 2 3');
  });

  it('fine ends the piece after a jump, not before', () => {
    expect(order('', ['', sound('fine="yes"')], ['', sound('dacapo="yes"')])).toBe('1 2 3 1 2');
  });

  it('a numeric fine (length of the last note) ends the piece too', () => {
    expect(order(['', sound('fine="2"')], ['', sound('dacapo="yes"')])).toBe('1 2 1');
  });

  it('after da capo inner repeats are not taken (common practice, no source)', () => {
    expect(order('', ['', repeatEnd], ['', sound('dacapo="yes"')])).toBe('1 2 1 2 3 1 2 3');
  });

  it('after-jump="yes" takes a repeat after da capo as well', () => {
    expect(order('', ['', barline('<repeat direction="backward" after-jump="yes"/>')], ['', sound('dacapo="yes"')])).toBe(
      '1 2 1 2 3 1 2 1 2 3',
    );
  });

  it('after da capo the last ending is played (common practice, no source)', () => {
    const back = '<repeat direction="backward"/>';
    expect(order('', [open('1'), ending('1', 'stop', 'right', back)], [open('2'), ending('2', 'stop')], ['', sound('dacapo="yes"')])).toBe(
      '1 2 1 3 4 1 3 4',
    );
  });

  it('minuet, trio, minuet without repeats (ABA), the trio beginning with an implied repeat start', () => {
    expect(
      order(
        ['', repeatEnd],
        ['', repeatEnd + sound('fine="yes"')],
        [sound('forward-repeat="yes"'), ''],
        ['', repeatEnd + sound('dacapo="yes"')],
      ),
    ).toBe('1 1 2 2 3 4 3 4 1 2');
  });

  it('dal segno goes back to its sign', () => {
    expect(order('', [sound('segno="s"'), ''], ['', sound('fine="yes"')], ['', sound('dalsegno="s"')])).toBe('1 2 3 4 2 3');
  });

  it('of several signs dal segno takes the one it names', () => {
    expect(order([sound('segno="a"'), ''], [sound('segno="b"'), ''], ['', sound('dalsegno="a"')])).toBe('1 2 3 1 2 3');
    expect(order([sound('segno="a"'), ''], [sound('segno="b"'), ''], ['', sound('dalsegno="b"')])).toBe('1 2 3 2 3');
  });

  it('to coda holds the second time, after the jump, and leads to the coda sign', () => {
    expect(order('', ['', sound('tocoda="c"')], ['', sound('dacapo="yes"')], [sound('coda="c"'), ''], '')).toBe('1 2 3 1 2 4 5');
  });

  it('to coda inside a repeat is not taken before the jump (common practice, no source)', () => {
    expect(order('', ['', sound('tocoda="c"') + repeatEnd], ['', sound('dacapo="yes"')], [sound('coda="c"'), ''])).toBe('1 2 1 2 3 1 2 4');
  });

  it('without any da capo or dal segno, to coda holds the second time through its bar', () => {
    expect(order('', ['', sound('tocoda="c"')], ['', repeatEnd], [sound('coda="c"'), ''])).toBe('1 2 3 1 2 4');
  });

  it('repeats inside the coda are taken', () => {
    expect(order(['', sound('tocoda="c"')], ['', sound('dacapo="yes"')], [sound('coda="c"') + repeatStart, repeatEnd], '')).toBe(
      '1 2 1 3 3 4',
    );
  });

  it('time-only names the times at which a jump holds, as an ascending list', () => {
    expect(order('', ['', `${barline('<repeat direction="backward" times="3"/>')}${sound('dacapo="yes" time-only="3"')}`], '')).toBe(
      '1 2 1 2 1 2 1 2 3',
    );
    expect(order('', ['', sound('dacapo="yes" time-only="1,2"')], '')).toBe('1 2 1 2 1 2 3');
  });

  it('a sign after the last note of a bar means the next bar', () => {
    expect(order(['', sound('segno="s"')], '', ['', sound('dalsegno="s"')])).toBe('1 2 3 2 3');
  });

  it('a jump that stands in another part of the file counts', () => {
    const voice = { id: 'V', name: 'Voice', measures: bars([plain, plain + sound('dacapo="yes"')]) };
    const piano = { id: 'P', name: 'Piano', measures: bars([plain, plain]) };
    const score = readText(partwise([voice, piano]));
    expect(score.parts.find((part) => part.chosen)!.id).toBe('P');
    expect(playedBars(score)).toEqual(['1', '2', '1', '2']);
  });

  it('signs may stand on the bar line', () => {
    expect(order('', ['<barline location="left" segno="s"><segno/></barline>', ''], ['', sound('dalsegno="s"')])).toBe('1 2 3 2 3');
  });
});

describe('plain words without sound (our own fallback, common practice)', () => {
  const words = (text: string): string => direction(`<words>${text}</words>`);

  it('D.C. al Fine', () => {
    expect(order('', ['', words('Fine')], ['', words('D.C. al Fine')])).toBe('1 2 3 1 2');
  });

  it('D.S. al Coda with printed signs', () => {
    expect(order('', [direction('<segno/>'), ''], ['', words('To Coda')], ['', words('D.S. al Coda')], [direction('<coda/>'), ''])).toBe(
      '1 2 3 4 2 3 5',
    );
  });

  it('of two printed coda signs without "to coda" the first is where to leave', () => {
    expect(order('', ['', direction('<coda/>')], ['', words('D.C. al Coda')], [direction('<coda/>'), ''])).toBe('1 2 3 1 2 4');
  });

  it.each(['Da Capo', 'D. C.', 'd.c. senza replica', 'DC al Fine'])('"%s" is a da capo', (text) => {
    expect(order('', ['', words(text)])).toBe('1 2 1 2');
  });

  it.each(['Dolce', 'Finely', 'Codetta', 'D major', 'Segnor'])('"%s" is none', (text) => {
    expect(order('', ['', words(text)])).toBe('1 2');
  });

  it('words give way to the sound of the same bar', () => {
    expect(
      order('', [sound('segno="a"'), ''], [sound('segno="b"'), ''], ['', direction('<words>D.S.</words>', sound('dalsegno="a"'))]),
    ).toBe('1 2 3 4 2 3 4');
  });
});
