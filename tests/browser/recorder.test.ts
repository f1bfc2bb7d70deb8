import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readRecording, type Recording } from '../../src/recording/index.js';
import type { OpenRoom } from '../../src/web/index.js';
import { NO_BROWSER, openBrowser } from './browser.js';
import { openPage, openRoom } from './room.js';

const data = mkdtempSync(join(tmpdir(), 'barwise-recorder-'));
const browser: Browser | null = await openBrowser();
if (browser === null) console.warn(NO_BROWSER);

/** A played recording of the demo room, to be played again by the made keyboard. */
const PLAYED: Recording = readRecording(readFileSync(join(import.meta.dirname, '../../sample-recordings/quayside-march/nilo-tarrand-2025-10-22.mid')), { fileName: 'played.mid' });

/** A keyboard that a test plays on: the same face as the browser's own. */
const KEYBOARD = `
  const input = Object.assign(new EventTarget(), { id: 'made', name: 'Made keyboard', state: 'connected', onmidimessage: null });
  const access = Object.assign(new EventTarget(), { inputs: new Map([['made', input]]) });
  navigator.requestMIDIAccess = async () => access;
  window.strike = (data, ms) => input.onmidimessage({ data: Uint8Array.from(data), timeStamp: ms });
`;

/** Messages of the recording from one second to another, played as fast as they can be, each with its own moment. */
async function playOn(page: Page, fromS: number, toS: number): Promise<void> {
  const events = PLAYED.notes.flatMap(({ onsetS, releaseS, pitch, velocity }) => [{ timeS: onsetS, data: [0x90, pitch, velocity] }, { timeS: releaseS, data: [0x80, pitch, 64] }]);
  const part = events.filter(({ timeS }) => timeS >= fromS && timeS < toS).sort((a, b) => a.timeS - b.timeS);
  await page.evaluate((messages) => {
    const { strike, startedAt } = window as unknown as { strike: (data: number[], ms: number) => void; startedAt?: number };
    const start = startedAt ?? performance.now();
    Object.assign(window, { startedAt: start });
    for (const { timeS, data: bytes } of messages) strike(bytes, start + timeS * 1000);
  }, part);
}

/** A page with the made keyboard, in a context that is kept from page to page. */
async function recorderPage(page: Page, address: string): Promise<void> {
  await page.goto(address);
  await page.waitForSelector('[data-recorder-start]');
}

describe.skipIf(browser === null)('recording here', () => {
  const open = browser!;
  let room: OpenRoom;
  const takes = async (): Promise<string[]> => (await (await fetch(`${room.address}pupils/nilo-tarrand`)).text()).match(/\/pupils\/nilo-tarrand\/recordings\/\d+/g) ?? [];
  const countTakes = async (): Promise<number> => new Set(await takes()).size;

  beforeAll(async () => {
    room = await openRoom(data);
  });

  afterAll(async () => {
    await open.close();
    await room.close();
    rmSync(data, { recursive: true, force: true });
  });

  it('shows level and pedal, and leads from the last note to the review', async () => {
    const before = await countTakes();
    const { page, faults } = await openPage(open);
    await page.addInitScript(KEYBOARD);
    await recorderPage(page, `${room.address}record?pupil=nilo-tarrand&piece=quayside-march`);
    await page.evaluate(() => (window as unknown as { strike: (data: number[], ms: number) => void }).strike([0xb0, 64, 127], performance.now()));
    await page.waitForFunction(() => document.querySelector<HTMLElement>('[data-recorder-pedal]')?.style.transform === 'scaleX(1)');
    await page.click('[data-recorder-start]');
    await playOn(page, 0, Infinity);
    await page.waitForFunction(() => document.querySelector('[data-recorder-count]')?.textContent.includes('82 notes'));
    await page.click('[data-recorder-stop]');
    await page.click('[data-recorder-keep]');
    await page.waitForURL(/\/pupils\/nilo-tarrand\/recordings\/\d+/);
    expect(await countTakes()).toBe(before + 1);
    expect(await page.textContent('h1')).toContain('Nilo Tarrand');
    expect(faults).toEqual([]);
  }, 120_000);

  it('loses nothing when the connection is cut and the page closed in the middle, and sends nothing twice', async () => {
    const before = await countTakes();
    const context = await open.newContext();
    await context.addInitScript(KEYBOARD);
    const first = await context.newPage();
    await recorderPage(first, `${room.address}record?pupil=nilo-tarrand&piece=quayside-march`);
    await first.click('[data-recorder-start]');
    await playOn(first, 0, 12);
    // the connection is cut in the middle of the playing, and what goes out fails
    await context.route('**/record', (route) => (route.request().method() === 'POST' ? route.abort() : route.continue()));
    await playOn(first, 12, Infinity);
    await first.click('[data-recorder-stop]');
    await first.click('[data-recorder-keep]');
    await first.waitForFunction(() => document.querySelector('[data-recorder-count]')?.textContent.includes('safe in this browser'));
    await first.close();
    expect(await countTakes()).toBe(before);
    // two pages at once when the connection is back: both find it on the shelf, the room has it once
    await context.unroute('**/record');
    const [second, third] = [await context.newPage(), await context.newPage()];
    await Promise.all([recorderPage(second, `${room.address}record`), recorderPage(third, `${room.address}record`)]);
    await second.waitForFunction(() => document.querySelector<HTMLElement>('[data-recorder-waiting]')?.hidden === true);
    await expect.poll(countTakes, { timeout: 30_000 }).toBe(before + 1);
    await second.reload();
    await second.waitForTimeout(500);
    expect(await countTakes()).toBe(before + 1);
    await context.close();
  }, 120_000);

  it('has a take that nobody could stop, up to its last note', async () => {
    const context = await open.newContext();
    await context.addInitScript(KEYBOARD);
    const first = await context.newPage();
    await recorderPage(first, `${room.address}record?pupil=nilo-tarrand`);
    await first.click('[data-recorder-start]');
    await playOn(first, 0, Infinity);
    await first.waitForFunction(() => document.querySelector('[data-recorder-count]')?.textContent.includes('82 notes'));
    // closed at once, while it is being recorded
    await first.close();
    const second = await context.newPage();
    await recorderPage(second, `${room.address}record`);
    expect(await second.textContent('[data-recorder-list]')).toMatch(/82 notes: not yet kept/);
    await context.close();
  }, 60_000);

  it('is filed once however often the same take is sent', async () => {
    const before = await countTakes();
    const messages = PLAYED.notes.flatMap(({ onsetS, releaseS, pitch }) => [[onsetS * 1000, 0x90, pitch, 70], [releaseS * 1000, 0x80, pitch, 0]]);
    const body = JSON.stringify({ key: '0123abcd-0000-4000-8000-000000000001', startedAt: '2025-11-24T17:00:00Z', pupil: 'nilo-tarrand', newPupil: '', piece: 'quayside-march', messages });
    const send = (): Promise<Response> => fetch(`${room.address}record`, { method: 'POST', body, headers: { 'Content-Type': 'application/json' } });
    const answers = await Promise.all([send(), send(), send()]);
    const again = await send();
    expect([...answers, again].map(({ status }) => status)).toEqual([200, 200, 200, 200]);
    expect(await countTakes()).toBe(before + 1);
  }, 60_000);

  it('refuses what is no take', async () => {
    const send = async (body: unknown): Promise<number> => (await fetch(`${room.address}record`, { method: 'POST', body: JSON.stringify(body), headers: { 'Content-Type': 'application/json' } })).status;
    const take = { key: '0123abcd', startedAt: '2025-11-24T17:00:00Z', pupil: 'nilo-tarrand', newPupil: '', piece: '', messages: [[0, 0x90, 60, 64]] };
    expect(await send({ ...take, messages: [[0, 0x90, 60, 200]] })).toBeGreaterThanOrEqual(400);
    expect(await send({ ...take, key: '../etc' })).toBeGreaterThanOrEqual(400);
    expect(await send({ ...take, pupil: '' })).toBeGreaterThanOrEqual(400);
    expect(await send(null)).toBeGreaterThanOrEqual(400);
  });
});
