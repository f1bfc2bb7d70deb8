/**
 * Marks on real scores, measured in the picture: a ring is drawn at every note by the way that reviews draw it, and the browser says how far its
 * middle lies from that of the note-head. BARWISE_CORPUS names the folder of scores; without it this is left out. With BARWISE_SAY it takes
 * every score and says its figure (a minute and a half), else every third, so that a change is checked quickly.
 */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { composeSystem, createToolkit, engraveOrGrid, ring, type Mark } from '../../src/engrave/index.js';
import { readScore } from '../../src/score/index.js';
import { NO_BROWSER, openBrowser } from '../browser/browser.js';

const corpus = process.env['BARWISE_CORPUS'];
const browser = corpus === undefined ? null : await openBrowser();
if (corpus !== undefined && browser === null) console.warn(NO_BROWSER);
afterAll(() => browser?.close());

const toolkit = createToolkit();

/** Every score of the corpus: "vienna/Chopin_op10_no3/score.musicxml". */
function scoresIn(folder: string): readonly string[] {
  return readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter((name) => /(^|[/\\])score\.(musicxml|mxl|xml)$/.test(name)).sort();
}

const EVERY = process.env['BARWISE_SAY'] === undefined ? 3 : 1;
const names = corpus === undefined || !existsSync(corpus) ? ['no corpus'] : scoresIn(corpus).filter((_, i) => i % EVERY === 0);

test.skipIf(browser === null).each(names)('%s: every ring sits on its note-head', async (name) => {
  const score = readScore(new Uint8Array(readFileSync(join(corpus ?? '', name))), { fileName: 'score' });
  const engraving = await engraveOrGrid(score, { widthPx: 656, toolkit });
  expect(engraving.fallback).toBeNull();
  const systems = engraving.systems.map((system) => {
    const marks: readonly Mark[] = system.notes.map(({ id, x, y }, seed) => ({ svg: ring({ x, y }, { title: '', data: { ringed: id }, seed }), top: y - 11, bottom: y + 11 }));
    return composeSystem(system, marks, []).svg;
  });
  const page = await browser!.newPage({ viewport: { width: 800, height: 600 } });
  await page.setContent(`<!doctype html><html><body>${engraving.defs}${systems.join('')}</body></html>`);
  const off = await page.evaluate(() =>
    [...document.querySelectorAll('svg.system')].flatMap((svg) => {
      const middle = (element: Element): { x: number; y: number } => {
        const box = element.getBoundingClientRect();
        return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
      };
      const heads = new Map([...svg.querySelectorAll('.note')].map((note) => [note.getAttribute('data-note'), note.querySelector('use')]));
      return [...svg.querySelectorAll('[data-ringed]')].map((mark) => {
        const head = heads.get(mark.getAttribute('data-ringed'));
        if (!head) return Infinity;
        const [a, b] = [middle(mark.querySelector('path')!), middle(head)];
        return Math.hypot(a.x - b.x, a.y - b.y);
      });
    }),
  );
  await page.close();
  expect(off).toHaveLength(engraving.systems.flatMap(({ notes }) => notes).length);
  const worst = off.reduce((most, one) => Math.max(most, one), 0);
  if (process.env['BARWISE_SAY'] !== undefined) console.log(`${name}: ${off.length} notes, worst ${worst.toFixed(2)} px of ${(engraving.staveSpacePx / 2).toFixed(2)}`);
  expect(worst).toBeLessThanOrEqual(engraving.staveSpacePx / 2);
}, 120_000);
