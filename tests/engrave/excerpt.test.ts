import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { createToolkit, engraveScore } from '../../src/engrave/index.js';
import { readScore } from '../../src/score/index.js';

const bytes = readFileSync(new URL('../../sample-recordings/rowing-home/score.musicxml', import.meta.url));
const score = readScore(bytes, { fileName: 'score.musicxml' });
const xml = score.xml ?? '';

describe('an excerpt', () => {
  it('holds its bars and their notes alone, under their own names, in one line', async () => {
    const engraving = await engraveScore(xml, { widthPx: 640, bars: score.bars, only: [4, 6] });
    expect(engraving.systems).toHaveLength(1);
    expect(engraving.systems[0]?.bars.map(({ barIndex }) => barIndex)).toEqual([4, 5, 6]);
    const own = score.notes.filter(({ barIndex }) => barIndex >= 4 && barIndex <= 6).map(({ id }) => id);
    expect(engraving.systems.flatMap(({ notes }) => notes.map(({ id }) => id)).sort()).toEqual([...own].sort());
  });

  it('lasts for one engraving: the same engraver draws the whole piece afterwards', async () => {
    const toolkit = createToolkit();
    await engraveScore(xml, { widthPx: 640, bars: score.bars, only: [4, 6], toolkit });
    const whole = await engraveScore(xml, { widthPx: 640, bars: score.bars, toolkit });
    expect(whole.systems.flatMap(({ bars }) => bars)).toHaveLength(score.bars.length);
  });
});
