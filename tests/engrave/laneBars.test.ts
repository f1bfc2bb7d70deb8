import { expect, test } from 'vitest';
import { createToolkit, engraveScore, type EngravedSystem } from '../../src/engrave/index.js';
import { laneBars } from '../../src/engrave/laneBars.js';
import { barline, bars, head, note, partwise, repeatEnd, repeatStart } from '../score/build.js';
import { readText } from '../score/read.js';

const BAR = note('C5', 8);

/** Invented: a plain bar, a repeat of two bars, a bar with a double bar, and the end. */
const XML = partwise(bars([head() + BAR, repeatStart + BAR, BAR + repeatEnd, BAR + barline('<bar-style>light-light</bar-style>'), BAR + barline('<bar-style>light-heavy</bar-style>')]));

/** Widths of strokes in the engraver's units: a plain line and a bold one of a repeat sign. */
const PLAIN = '27';
const BOLD = '90';

/** Where upright strokes of a width stand in a system's drawing, px, from its text. */
function strokesOf({ svg }: EngravedSystem, width: string): readonly number[] {
  const [, scale, shift] = /class="engraved"[^>]*matrix\(([\d.]+) 0 0 [\d.]+ ([\d.-]+) /.exec(svg) ?? [];
  const found = [...svg.matchAll(/<path d="M([\d.]+) [\d.]+ ?L([\d.]+) [\d.]+" stroke-width="([\d.]+)"/g)].filter(([, from, to, stroke]) => from === to && stroke === width);
  return [...new Set(found.map(([, x]) => Number(x) * Number(scale) + Number(shift)))];
}

/** Where a lane's bar lines stand. */
function lanesIn(system: EngravedSystem): readonly number[] {
  return [...laneBars(system, { top: 0, bottom: 10 }).matchAll(/d="M([\d.]+) 0V10"/g)].map(([, x]) => Number(x));
}

/** The stroke nearest to a line, px away. */
function offBy(x: number, strokes: readonly number[]): number {
  return Math.min(...strokes.map((stroke) => Math.abs(stroke - x)));
}

test('a lane’s bar lines run through the lines that are drawn, the boldest of a repeat sign and of the end', async () => {
  const score = readText(XML);
  const { systems } = await engraveScore(score.xml ?? '', { widthPx: 940, bars: score.bars, toolkit: createToolkit() });
  const [system] = systems;
  expect(systems).toHaveLength(1);
  const lanes = lanesIn(system!);
  expect(lanes).toHaveLength(5);
  const [bold, plain] = [strokesOf(system!, BOLD), strokesOf(system!, PLAIN)];
  // the repeat's start after bar 1, its end after bar 3, and the end of the piece
  expect(bold).toHaveLength(3);
  // a tenth of a pixel is what the drawing's numbers are rounded to
  for (const bar of [0, 2, 4]) expect(offBy(lanes[bar]!, bold)).toBeLessThan(0.1);
  for (const bar of [1, 3]) expect(offBy(lanes[bar]!, plain)).toBeLessThan(0.1);
  // of the double bar the second line: the last plain one before the end's own
  const before = plain.filter((x) => x < lanes[3]! - 0.1 && x > lanes[2]! + 20);
  expect(before.length).toBeGreaterThan(0);
});

test('without a drawn line the lane’s line ends with the stave', () => {
  const system: EngravedSystem = { index: 0, widthPx: 100, heightPx: 50, svg: '', staves: [], bars: [{ barIndex: 0, left: 0, right: 90 }], notes: [] };
  expect(lanesIn(system)).toEqual([89.5]);
});
