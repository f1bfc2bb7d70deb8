import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { engraveScore } from '../../src/engrave/index.js';
import { endsAlone } from '../../src/engrave/toolkit.js';
import { readScore } from '../../src/score/index.js';

/** Pages of systems with so many bars each, as the engraver marks them. */
const pages = (...systems: readonly number[]): readonly string[] => [`<svg>${systems.map((bars) => `<g class="system">${'<g class="measure"></g><g class="systemMilestone"></g>'.repeat(bars)}</g>`).join('')}</svg>`];

describe('a last bar that stands alone', () => {
  it.each([
    [[5, 5, 1], true], [[5, 4, 2], false],
    // where every system holds one bar none is lonelier than the others; one system is the whole piece
    [[1, 1, 1], false], [[1], false], [[], false],
  ])('bars %j: %s', (systems, alone) => {
    expect(endsAlone(pages(...systems))).toBe(alone);
  });

  it('is counted over the pages of one column', () => {
    expect(endsAlone([...pages(5, 5), ...pages(1)])).toBe(true);
  });

  it.each([940, 656])('gets company in a demo piece at %d px, and no bar is lost', async (widthPx) => {
    for (const piece of ['rowing-home', 'gull-chase']) {
      const score = readScore(readFileSync(new URL(`../../sample-recordings/${piece}/score.musicxml`, import.meta.url)), { fileName: 'score.musicxml' });
      const { systems } = await engraveScore(score.xml ?? '', { widthPx, bars: score.bars });
      expect(systems.at(-1)?.bars.length, piece).toBeGreaterThan(1);
      expect(systems.flatMap(({ bars }) => bars.map(({ barIndex }) => barIndex))).toEqual(score.bars.map(({ index }) => index));
    }
  });
});

describe('a tempo word before its note value', () => {
  it.each(['evening-over-skerrowby', 'rowing-home'])('stands clear of it (%s)', async (piece) => {
    const score = readScore(readFileSync(new URL(`../../sample-recordings/${piece}/score.musicxml`, import.meta.url)), { fileName: 'score.musicxml' });
    const { systems } = await engraveScore(score.xml ?? '', { widthPx: 656, bars: score.bars });
    const tempo = /<g class="tempo"[^>]*>(.*?)<\/g>/s.exec(systems[0]?.svg ?? '')?.[1] ?? '';
    const [, x, size, word = ''] = /<text x="([\d.]+)"[^>]*font-size="([\d.]+)"[^>]*>([^<]+)</.exec(tempo) ?? [];
    const [, cx, rx] = /<ellipse cx="([\d.]+)"[^>]*rx="([\d.]+)"/.exec(tempo) ?? [];
    expect(['Adagio', 'Andantino']).toContain(word);
    // widths of Alegreya's letters in thousandths, from the font: A d a g i o, A n d a n t i n o
    const thousandths = word === 'Adagio' ? 584 + 501 + 448 + 450 + 282 + 537 : 584 + 541 + 501 + 448 + 541 + 345 + 282 + 541 + 537;
    const clear = Number(cx) - Number(rx) - Number(x) - (thousandths * Number(size)) / 1000;
    // a third of the type's size at least: more than a word space (0.2), less than a gap
    expect(clear / Number(size)).toBeGreaterThan(0.33);
    expect(clear / Number(size)).toBeLessThan(0.8);
  });
});
