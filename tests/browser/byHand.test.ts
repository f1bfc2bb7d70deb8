/** The review by hand: score, margin, table, chart and ribbon point to each other. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { createPipeline } from '../../src/pipeline/index.js';
import { startRoom, type OpenRoom } from '../../src/web/index.js';
import { openStore } from '../../src/store/index.js';
import { sample } from '../web/room.js';
import { NO_BROWSER, openBrowser } from './browser.js';
import { openPage } from './room.js';

const data = mkdtempSync(join(tmpdir(), 'barwise-hand-'));
const browser: Browser | null = await openBrowser();

if (browser === null) console.warn(NO_BROWSER);

/** Bars lit among some things. */
const litBars = (page: Page, what: string): Promise<string[]> => page.evaluate((selector) => [...new Set([...document.querySelectorAll(`${selector}.lit`)].map((one) => one.getAttribute('data-bar') ?? ''))].sort((a, b) => Number(a) - Number(b)), what);

describe.skipIf(browser === null)('the review by hand', () => {
  const open = browser!;
  let room: OpenRoom;
  const review = (): string => `${room.address}pupils/jonas-brekkewood/recordings/1`;

  beforeAll(async () => {
    // one recording whose foot is planned to be late over many changes
    const store = openStore(data);
    const pupil = store.addPupil('Jonas Brekkewood');
    const piece = store.addPiece({ title: 'Rowing Home', score: sample('rowing-home/score.musicxml') });
    store.addRecording({ pupilId: pupil.id, scoreId: store.scoreOfPiece(piece.id).id, file: sample('rowing-home/jonas-brekkewood-2025-10-14.mid'), line: 'once through' });
    store.close();
    room = await startRoom({ port: 0, data, demo: false, pipeline: createPipeline() });
  });

  afterAll(async () => {
    await open.close();
    await room.close();
    rmSync(data, { recursive: true, force: true });
  });

  it('lights a sentence’s bars on score, table and ribbon, and nothing when it is left', async () => {
    const { page, faults } = await openPage(open);
    await page.goto(review(), { waitUntil: 'networkidle' });
    const sentence = page.locator('.seen > li').first();
    await sentence.locator('p a').focus();
    const bars = (await sentence.getAttribute('data-bars'))!.split(' ');
    expect(bars.length).toBeGreaterThan(0);
    for (const what of ['.under rect', '.bar-table tbody tr']) expect(await litBars(page, what)).toEqual(bars);
    await page.locator('h1').click();
    await page.evaluate(() => (document.activeElement as HTMLElement).blur());
    expect(await page.locator('.lit').count()).toBe(0);
    expect(faults).toEqual([]);
  });

  it('lights a bar’s sentences and marks from the table, by pointer and by keys', async () => {
    const { page } = await openPage(open);
    await page.goto(review(), { waitUntil: 'networkidle' });
    const bar = (await page.locator('.seen > li').first().getAttribute('data-bar'))!;
    await page.evaluate(() => document.querySelectorAll('details').forEach((one) => (one.open = true)));
    await page.locator(`.bar-table tr[data-bar="${bar}"] td`).first().hover();
    expect(await page.locator('.seen > li.lit').count()).toBeGreaterThan(0);
    expect(await litBars(page, '.under rect')).toEqual([bar]);
    await page.locator('h1').hover();
    expect(await page.locator('.lit').count()).toBe(0);
    await page.locator(`.bar-table tr[data-bar="${bar}"] th a`).first().focus();
    expect(await litBars(page, '.under rect')).toEqual([bar]);
    await page.keyboard.press('Enter');
    expect(await page.locator(`.drawer[data-bar="${bar}"]`).isVisible()).toBe(true);
  });

  it('lights a bar from its column in the chart, and the column from the bar', async () => {
    const { page, faults } = await openPage(open);
    await page.goto(review(), { waitUntil: 'networkidle' });
    await page.click('details[data-chart] > summary');
    await page.waitForSelector('[data-chart-tools] button');
    const canvas = page.locator('[data-chart] canvas');
    const box = (await canvas.boundingBox())!;
    await page.mouse.move(box.x + box.width - 12, box.y + box.height / 2);
    await page.waitForFunction(() => document.querySelectorAll('.under rect.lit').length > 0);
    // the last column is the last of the piece's thirty bars after its upbeat
    expect(await litBars(page, '.under rect')).toEqual(['30']);
    await page.locator('h1').hover();
    await page.waitForFunction(() => document.querySelectorAll('.lit').length === 0);
    const picture = (): Promise<string> => page.evaluate(() => document.querySelector<HTMLCanvasElement>('[data-chart] canvas')!.toDataURL());
    const plain = await picture();
    await page.locator('.bar-target').nth(4).focus();
    expect(await picture()).not.toBe(plain);
    await page.evaluate(() => (document.activeElement as unknown as HTMLElement).blur());
    expect(await picture()).toBe(plain);
    expect(faults).toEqual([]);
  });

  it('has every chart as a table that keys reach', async () => {
    const { page } = await openPage(open);
    await page.goto(review(), { waitUntil: 'networkidle' });
    await page.locator('details[data-chart] > summary').press('Enter');
    await page.waitForSelector('[data-chart-tools] button');
    const shown = await page.locator('[data-chart-tools] button').allTextContents();
    // every aspect of the chart has its columns in the table: those with a heading of their own name themselves
    const columns = await page.evaluate(() => JSON.parse(document.querySelector<HTMLElement>('table[data-bars]')!.dataset['columns']!) as { aspect: string }[]);
    for (const name of shown.slice(3)) expect(columns.map(({ aspect }) => aspect)).toContain(name);
    await page.locator('[data-chart-table] > summary').press('Enter');
    expect(await page.locator('table[data-bars]').isVisible()).toBe(true);
    await page.locator('table[data-bars] tbody th a').first().focus();
    await page.keyboard.press('Enter');
    expect(await page.evaluate(() => window.location.hash)).not.toBe('');
  });
});
