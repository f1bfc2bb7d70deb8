import { expect, test } from 'vitest';
import { createToolkit, engraveScore, type EngravedNote, type Engraving } from '../../src/engrave/index.js';
import { bars, head, note, partwise } from '../score/build.js';
import { readText } from '../score/read.js';
import { smallScore, xmlOf } from './fixture.js';

const toolkit = createToolkit();

async function engraved(times = 1, widthPx = 656): Promise<Engraving> {
  const score = smallScore(times);
  return engraveScore(xmlOf(score), { widthPx, bars: score.bars, toolkit });
}

function noteIn(engraving: Engraving, id: string): EngravedNote {
  return engraving.systems.flatMap(({ notes }) => notes).find((found) => found.id === id)!;
}

// a head's outline reaches a little unevenly above and below the line it stands on
const HEAD_PX = 0.2;

test('a stave space is 18 units of the engraver at 42 percent: 7.56 px, so a stave is 30.24 px high', async () => {
  const { staveSpacePx, systems } = await engraved();
  expect(staveSpacePx).toBeCloseTo(7.56, 6);
  for (const { top, bottom } of systems[0]!.staves) expect(bottom - top).toBeCloseTo(30.24, 1);
});

test('note-heads stand where their clefs put them', async () => {
  const engraving = await engraved();
  const [treble, bass] = engraving.systems[0]!.staves;
  const y = (id: string): number => noteIn(engraving, id).y;
  // treble clef: F5 on the top line, B4 on the middle one, E4 on the bottom one, C4 on the first ledger line below
  expect(Math.abs(y('top-line') - treble!.top)).toBeLessThan(HEAD_PX);
  expect(Math.abs(y('middle-line') - (treble!.top + treble!.bottom) / 2)).toBeLessThan(HEAD_PX);
  expect(Math.abs(y('bottom-line') - treble!.bottom)).toBeLessThan(HEAD_PX);
  expect(Math.abs(y('middle-c') - treble!.bottom - engraving.staveSpacePx)).toBeLessThan(HEAD_PX);
  // bass clef: A3 on the top line, G2 on the bottom one
  expect(Math.abs(y('bass-top') - bass!.top)).toBeLessThan(HEAD_PX);
  expect(Math.abs(y('bass-bottom') - bass!.bottom)).toBeLessThan(HEAD_PX);
});

test('notes sounding together stand over one another, later ones to the right', async () => {
  const engraving = await engraved();
  const x = (id: string): number => noteIn(engraving, id).x;
  expect(x('top-line')).toBeCloseTo(x('bass-top'), 0);
  expect(x('middle-c')).toBeCloseTo(x('bass-bottom'), 0);
  expect([x('top-line'), x('bottom-line'), x('middle-c'), x('middle-line'), x('chord-low')]).toEqual(
    [x('top-line'), x('bottom-line'), x('middle-c'), x('middle-line'), x('chord-low')].sort((a, b) => a - b),
  );
});

test('bars follow one another without a gap, in written order, and hold their notes', async () => {
  const { systems } = await engraved(6);
  expect(systems.flatMap((system) => system.bars.map(({ barIndex }) => barIndex))).toEqual([0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11]);
  for (const system of systems) {
    system.bars.slice(1).forEach((bar, i) => expect(bar.left).toBeCloseTo(system.bars[i]!.right, 1));
    expect(system.bars.at(-1)!.right).toBeLessThanOrEqual(system.widthPx);
    for (const { x, y } of system.notes) {
      expect(x).toBeGreaterThan(system.bars[0]!.left);
      expect(x).toBeLessThan(system.bars.at(-1)!.right);
      expect(y).toBeGreaterThan(0);
      expect(y).toBeLessThan(system.heightPx);
    }
  }
});

test('every note of the score has its place, once', async () => {
  const score = smallScore(6);
  const { systems } = await engraveScore(xmlOf(score), { widthPx: 358, bars: score.bars, toolkit });
  expect(systems.flatMap(({ notes }) => notes.map(({ id }) => id)).sort()).toEqual(score.notes.map(({ id }) => id).sort());
});

test('a narrower column has more systems at the same scale', async () => {
  const [wide, narrow] = [await engraved(6, 940), await engraved(6, 358)];
  expect(narrow.systems.length).toBeGreaterThan(wide.systems.length);
  expect(narrow.staveSpacePx).toBe(wide.staveSpacePx);
});

test('numbers stand at every bar but the first', async () => {
  const { systems } = await engraved(3);
  const numbers = systems.flatMap(({ svg }) => [...svg.matchAll(/class="bar-number" data-bar="(\d+)"[^>]*>([^<]*)</g)].map(([, bar, text]) => [bar, text]));
  expect(numbers).toEqual([['1', '2'], ['2', '3'], ['3', '4'], ['4', '5'], ['5', '6']]);
});

test('engraving the same score twice gives the same text', async () => {
  expect(await engraved(2)).toEqual(await engraved(2));
});

test('a picture with other bars than the score is refused', async () => {
  const score = smallScore(2);
  await expect(engraveScore(xmlOf(score), { widthPx: 656, bars: score.bars.slice(1), toolkit })).rejects.toMatchObject({ name: 'InputError', code: 'unsupported' });
});

test('what the engraver cannot read is an input error, and the next score is engraved on a fresh engraver', async () => {
  await expect(engraveScore('<score-partwise><part id="P1"/></score-partwise>', { widthPx: 656, bars: smallScore().bars, toolkit })).rejects.toMatchObject({ name: 'InputError', code: 'unsupported' });
  expect((await engraved()).systems).toHaveLength(1);
});

test.each([99, 4001, Number.NaN])('a width of %s px is our own misuse', async (widthPx) => {
  const score = smallScore();
  await expect(engraveScore(xmlOf(score), { widthPx, bars: score.bars, toolkit })).rejects.toBeInstanceOf(RangeError);
});

test('a metronome mark is drawn and its words are text', async () => {
  const mark = '<direction><direction-type><metronome><beat-unit>quarter</beat-unit><per-minute>84</per-minute></metronome></direction-type></direction>';
  const score = readText(partwise(bars([head() + mark + note('C4', 8)])));
  const { systems } = await engraveScore(xmlOf(score), { widthPx: 656, bars: score.bars, toolkit });
  expect(systems[0]!.svg).toMatch(/class="tempo"/);
  expect(systems[0]!.svg).toContain('= 84</text>');
  expect(systems[0]!.svg).not.toMatch(/[\ue000-\uf8ff]/u);
});
