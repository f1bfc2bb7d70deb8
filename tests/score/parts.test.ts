import { describe, expect, it } from 'vitest';
import { bars, direction, head, note, partwise, rest, type BuiltPart } from './build.js';
import { expectInputError } from './errors.js';
import { expectWarning, readText, warningTexts } from './read.js';

const twoStaves = head('4/4', '<staves>2</staves>');

function part(id: string, name: string, ...contents: readonly string[]): BuiltPart {
  return { id, name, measures: bars(contents) };
}

const voice = part('V', 'Soprano', note('C5', 2) + note('D5', 2) + note('E5', 2) + note('F5', 2));
const grand = part('P', 'Grand', twoStaves + note('C4', 8, { staff: 1 }));
const strings = part('S', 'Ensemble', twoStaves + note('C4', 2, { staff: 1 }) + note('D4', 2, { staff: 2 }) + note('E4', 4, { staff: 2 }));

/** Ids of the parts that are read. */
function chosen(...parts: readonly BuiltPart[]): readonly string[] {
  return readText(partwise(parts))
    .parts.filter((info) => info.chosen)
    .map((info) => info.id);
}

describe('which part is the piano', () => {
  it('a part on two staves goes before one with more notes on a single stave', () => {
    expect(chosen(voice, grand)).toEqual(['P']);
  });

  it('of several parts on two staves the one with most notes is read, unless one is named like a keyboard', () => {
    expect(chosen(grand, strings)).toEqual(['S']);
    expect(chosen({ ...grand, name: 'Pianoforte' }, strings)).toEqual(['P']);
  });

  it('without two staves a part named like a keyboard, else the one with most notes', () => {
    const piano = part('K', 'Klavier', note('C4', 8));
    const flute = part('F', 'Flute', note('C5', 4) + note('D5', 4));
    expect(chosen(voice, flute, piano)).toEqual(['K']);
    expect(chosen(flute, voice, part('O', 'Oboe', note('C5', 8)))).toEqual(['V']);
  });

  it('parts named right and left hand are read together, whichever comes first', () => {
    const left = part('L', 'Left hand', note('C3', 8, { id: 'l' }));
    const right = part('R', 'Right hand', note('C5', 8, { id: 'r' }));
    for (const order of [
      [left, right],
      [right, left],
    ]) {
      const score = readText(partwise(order));
      expect(score.notes.map((n) => [n.id, n.staff])).toEqual([
        ['r', 1],
        ['l', 2],
      ]);
      expect([score.staves, score.parts.every((info) => info.chosen)]).toEqual([2, true]);
    }
  });

  it('two parts on one stave each, both named piano or not at all, are two hands', () => {
    expect(chosen(part('A', 'Piano', note('C5', 8)), part('B', 'Piano', note('C3', 8)))).toEqual(['A', 'B']);
    expect(chosen(part('A', '', note('C5', 8)), part('B', '', note('C3', 8)))).toEqual(['A', 'B']);
    expect(chosen(part('A', 'Flute', note('C5', 8)), part('B', 'Oboe', note('C3', 8)))).toEqual(['A']);
  });

  it('two hands whose parts write unlike divisions meet on one grid', () => {
    const right = part('R', 'Right hand', note('C5', 8));
    const left = { id: 'L', name: 'Left hand', measures: bars([head('4/4', '', 3) + note('C3', 1) + note('D3', 11, { id: 'x' })]) };
    const score = readText(partwise([right, left]));
    expect([score.ticksPerQuarter, score.notes.find((n) => n.id === 'x')!.onsetTick]).toEqual([6, 2]);
    expect(score.bars[0]!.lengthTicks).toBe(24);
  });

  it('all parts are listed with their note counts', () => {
    expect(readText(partwise([voice, grand])).parts).toEqual([
      { id: 'V', name: 'Soprano', notes: 4, chosen: false },
      { id: 'P', name: 'Grand', notes: 1, chosen: true },
    ]);
  });
});

describe('a part asked for', () => {
  it('may be named by id or by name, upper and lower case alike', () => {
    const text = partwise([voice, grand]);
    for (const wanted of ['V', 'v', 'soprano', ' Soprano ']) expect(readText(text, wanted).notes).toHaveLength(4);
  });

  it('that does not exist is refused, naming those that do', () => {
    expectInputError(() => readText(partwise([voice, grand]), 'Tuba'), 'no-such-part', { says: /V \(Soprano\), P \(Grand\)/ });
  });
});

describe('what other parts add', () => {
  it('tempo and rehearsal marks that stand over another part alone', () => {
    const top = part(
      'V',
      'Soprano',
      `${direction('<words>Andante</words>', '<sound tempo="72"/>')}${direction('<dynamics><f/></dynamics>')}${note('C5', 8)}`,
    );
    expect(readText(partwise([top, grand])).directions.map((d) => [d.kind, d.text, d.value])).toEqual([['tempo', 'Andante', 72]]);
  });

  it('no second tempo mark where the piano has its own', () => {
    const top = part('V', 'Soprano', `${direction('<words>Andante</words>')}${note('C5', 8)}`);
    const piano = part('P', 'Piano', `${twoStaves}${direction('<words>Andante</words>')}${note('C4', 8, { staff: 1 })}`);
    expect(readText(partwise([top, piano])).directions).toHaveLength(1);
  });

  it('a fault in a part that is not read does no harm', () => {
    const broken = part('V', 'Soprano', note('C5', -8));
    expect(readText(partwise([broken, grand])).notes).toHaveLength(1);
  });
});

describe('warnings about parts', () => {
  it('a part that the list does not know', () => {
    const text = partwise([grand]).replace('<score-part id="P">', '<score-part id="Q">');
    expect(warningTexts(readText(text))).toEqual([expect.stringContaining('list of parts')]);
  });

  it('staves that are used and never declared', () => {
    const score = readText(partwise([part('P', 'Piano', note('C4', 8, { staff: 1 }), note('C3', 8, { staff: 2 }))]));
    expect(score.staves).toBe(2);
    expectWarning(score, '2', /staves/);
  });

  it('two hands of unlike length', () => {
    const score = readText(partwise([part('R', 'Right', note('C5', 8), note('C5', 8)), part('L', 'Left', rest(8))]));
    expect(score.bars).toHaveLength(2);
    expect(warningTexts(score)).toEqual([expect.stringContaining('numbers of bars')]);
  });
});
