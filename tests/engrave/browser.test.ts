/** The engraving in a real browser: where it really draws, whether anything is cut off, whether a strict policy blocks it. */
import type { Page } from 'playwright-core';
import { afterAll, expect, test } from 'vitest';
import { createToolkit, engraveScore } from '../../src/engrave/index.js';
import { textWidth } from '../../src/engrave/textWidth.js';
import { NO_BROWSER, openBrowser } from '../browser/browser.js';
import { smallScore, xmlOf } from './fixture.js';
import { readFileSync } from 'node:fs';

const POLICY = "default-src 'none'; style-src 'none'; script-src 'none'";

const browser = await openBrowser();
if (browser === null) console.warn(NO_BROWSER);
afterAll(() => browser?.close());

const score = smallScore(4);
const engraving = await engraveScore(xmlOf(score), { widthPx: 656, bars: score.bars, toolkit: createToolkit() });

async function pageWith(html: string): Promise<Page> {
  const page = await browser!.newPage({ viewport: { width: 800, height: 600 } });
  await page.setContent(html);
  return page;
}

function drawn(): string {
  return `<!doctype html><html><head><meta charset="utf-8"><meta http-equiv="Content-Security-Policy" content="${POLICY}"></head><body>${engraving.defs}${engraving.systems.map(({ svg }) => svg).join('')}</body></html>`;
}

test('every note-head’s centre is where the browser draws it', async ({ skip }) => {
  if (browser === null) return skip();
  const page = await pageWith(drawn());
  const seen = await page.evaluate(() =>
    [...document.querySelectorAll('svg.system')].flatMap((svg) => {
      const origin = svg.getBoundingClientRect();
      return [...svg.querySelectorAll('.note')].map((note) => {
        const head = note.querySelector('use')!.getBoundingClientRect();
        return { id: note.getAttribute('data-note'), x: head.x + head.width / 2 - origin.x, y: head.y + head.height / 2 - origin.y };
      });
    }),
  );
  await page.close();
  const told = engraving.systems.flatMap(({ notes }) => notes);
  expect(seen).toHaveLength(told.length);
  const errors = seen.map(({ id, x, y }) => {
    const note = told.find((candidate) => candidate.id === id)!;
    return Math.hypot(note.x - x, note.y - y);
  });
  // two decimals in the picture's own shift, and the browser's rounding
  expect(Math.max(...errors)).toBeLessThan(0.05);
});

test('nothing is drawn outside a system’s own height', async ({ skip }) => {
  if (browser === null) return skip();
  const page = await pageWith(drawn());
  const overs = await page.evaluate(() =>
    [...document.querySelectorAll('svg.system')].map((svg) => {
      const frame = svg.getBoundingClientRect();
      const parts = [...svg.querySelectorAll('path, use, text, polygon, ellipse')].map((part) => part.getBoundingClientRect());
      return Math.max(...parts.map((part) => Math.max(frame.top - part.top, part.bottom - frame.bottom)));
    }),
  );
  await page.close();
  expect(Math.max(...overs)).toBeLessThanOrEqual(0);
});

test('under a policy without styles and scripts the ink follows the page’s colour', async ({ skip }) => {
  if (browser === null) return skip();
  const blocked: string[] = [];
  const page = await browser.newPage();
  page.on('console', (message) => blocked.push(message.text()));
  await page.setContent(drawn().replace('<body>', '<body text="#123456">'));
  const colour = await page.evaluate(() => getComputedStyle(document.querySelector('svg.system .note use')!).fill);
  await page.close();
  expect(blocked).toEqual([]);
  // #123456 = 18, 52, 86
  expect(colour).toBe('rgb(18, 52, 86)');
});

test('the table of text widths agrees with the font', async ({ skip }) => {
  if (browser === null) return skip();
  const font = (style: string): string => readFileSync(new URL(`../../node_modules/@fontsource/alegreya/files/alegreya-latin-400-${style}.woff2`, import.meta.url)).toString('base64');
  const face = (style: string): string => `@font-face{font-family:Tested;font-style:${style};src:url(data:font/woff2;base64,${font(style)})}`;
  const samples = ['Andantino con moto', 'in time', '0.2 s early', '12', 'cresc.'];
  const page = await pageWith(`<style>${face('normal')}${face('italic')}</style><p style="font-family:Tested">a<i>b</i></p>`);
  const widths = await page.evaluate(async (words) => {
    await document.fonts.ready;
    const pen = document.createElement('canvas').getContext('2d')!;
    return ['', 'italic '].map((style) => words.map((word) => ((pen.font = `${style}100px Tested`), pen.measureText(word).width)));
  }, samples);
  await page.close();
  samples.forEach((word, i) => {
    // kerning and ligatures are left out of the table
    expect(textWidth(word, { size: 100 }) / widths[0]![i]!).toBeCloseTo(1, 1);
    expect(textWidth(word, { size: 100, italic: true }) / widths[1]![i]!).toBeCloseTo(1, 1);
  });
});
