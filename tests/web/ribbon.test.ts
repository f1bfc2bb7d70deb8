import { describe, expect, it } from 'vitest';
import { strandsOf } from '../../src/judge/index.js';
import { barNames, type Score } from '../../src/score/index.js';
import { layOutRibbon, TARGET_PX } from '../../src/web/ribbonLayout.js';
import { ribbonSvg } from '../../src/web/ribbonSvg.js';
import { material, stretch } from '../review/material.js';

/** A score of so many bars of four crotchets, one tick each, after an upbeat of one. */
function longScore(bars: number): Score {
  const { score } = material({ route: [] });
  const model = score.bars[1]!;
  const upbeat = { ...model, index: 0, number: '0', implicit: true, startTick: 0, lengthTicks: 1, nominalTicks: 4 };
  return { ...score, bars: [upbeat, ...Array.from({ length: bars }, (_, i) => ({ ...model, index: i + 1, number: String(i + 1), startTick: 1 + 4 * i, lengthTicks: 4, nominalTicks: 4 }))] };
}

describe('the ribbon', () => {
  it('is true to the beats: the upbeat is a quarter of a bar wide', () => {
    const [row] = layOutRibbon(longScore(12), [], 656).rows;
    const [a, b, c] = row!.barLines;
    expect((b! - a!) / (c! - b!)).toBeCloseTo(1 / 4, 6);
  });

  it.each([
    [4, 656], [12, 656], [12, 358], [40, 656], [40, 358], [200, 656], [200, 358],
  ])('of %i bars in %i px fits, and every column is a fingertip wide', (bars, widthPx) => {
    const { rows } = layOutRibbon(longScore(bars), [], widthPx);
    expect(rows.length).toBeLessThanOrEqual(3);
    const columns = rows.flatMap((row) => row.columns);
    for (const { left, right } of columns) expect(right - left).toBeGreaterThanOrEqual(TARGET_PX);
    for (const { right } of columns) expect(right).toBeLessThanOrEqual(widthPx);
    expect(columns[0]!.barIndex).toBe(1);
    expect(columns.every((column, i) => i === 0 || column.barIndex > columns[i - 1]!.barIndex)).toBe(true);
  });

  it('has one scale in all rows, so that bars are equally wide in each', () => {
    const { rows } = layOutRibbon(longScore(40), [], 656);
    const widths = rows.flatMap(({ columns }) => columns.slice(1)).map(({ left, right }) => right - left);
    expect(rows.length).toBeGreaterThan(1);
    expect(Math.max(...widths) - Math.min(...widths)).toBeLessThan(1e-9);
  });

  it('cuts a strand at the edge of a row and goes on in the next', () => {
    const { alignment } = material({ route: [stretch(0, 0, 5)] });
    const score = longScore(12);
    const strands = strandsOf({ ...score, order: score.bars.map((_, index) => ({ index, barIndex: index, pass: 1, startTick: 0 })) }, { ...alignment, route: [stretch(0, 0, 12)] }, []);
    const { rows } = layOutRibbon(score, strands, 358);
    expect(rows).toHaveLength(2);
    expect(rows.map(({ segments }) => segments.map(({ startsHere, endsHere }) => [startsHere, endsHere]))).toEqual([[[true, false]], [[false, true]]]);
  });

  it('draws a leap over bars as a dotted way without a stop, also out of its row', () => {
    const score = longScore(26);
    const order = score.bars.map((_, index) => ({ index, barIndex: index, pass: 1, startTick: 0 }));
    const { alignment } = material({ route: [stretch(0, 0, 3), stretch(1, 6, 26)] });
    const draw = (route: (typeof alignment)['route']): string => {
      const strands = strandsOf({ ...score, order }, { ...alignment, route }, []);
      return ribbonSvg(layOutRibbon(score, strands, 656), { names: barNames(score), barHref: () => '#', strandHref: () => '?', shown: null, variant: 'wide' });
    };
    // the only strokes of a stop are two slanted lines drawn 14 px up and 5 px across
    for (const svg of [draw(alignment.route), draw([stretch(0, 0, 12), stretch(1, 20, 26)])]) {
      expect(svg.match(/class="return"/g)).toHaveLength(1);
      expect(svg).not.toContain('l5 -14m1 14l5 -14');
    }
  });

  it('draws the way back dotted, each strand a link, and names in words', () => {
    const { score, alignment } = material({ route: [stretch(0, 0, 4), stretch(1, 3, 5)] });
    const strands = strandsOf(score, alignment, []);
    const svg = ribbonSvg(layOutRibbon(score, strands, 656), {
      names: barNames({ bars: score.bars.map((bar) => ({ ...bar, number: bar.index === 2 ? '3"><script>' : bar.number })) }),
      barHref: (barIndex) => `#bar-${barIndex}`, strandHref: (strand) => `?try=${strand.index + 1}#score`, shown: 1, variant: 'wide',
    });
    expect(svg.match(/class="return"/g)).toHaveLength(1);
    expect(svg).toContain('href="?try=2#score"');
    expect(svg).toContain('class="strand shown"');
    expect(svg).toContain('aria-label="bar 2"');
    expect(svg).not.toContain('<script>');
  });
});
