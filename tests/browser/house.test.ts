/** Help, settings, the door: in a browser, by keys, at four sizes, in both lights. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startRoom, type OpenRoom } from '../../src/web/index.js';
import { plainPipeline } from '../web/room.js';
import { seriousFaults } from './axe.js';
import { NO_BROWSER, openBrowser } from './browser.js';
import { openPage, SIZES } from './room.js';

const folders = [mkdtempSync(join(tmpdir(), 'barwise-house-')), mkdtempSync(join(tmpdir(), 'barwise-door-'))] as const;
const browser: Browser | null = await openBrowser();
const PASSPHRASE = 'four harbour lanterns swing';

if (browser === null) console.warn(NO_BROWSER);

describe.skipIf(browser === null)('help, settings and the door in a browser', () => {
  const open = browser!;
  let room: OpenRoom;
  let locked: OpenRoom;

  beforeAll(async () => {
    room = await startRoom({ port: 0, data: folders[0], demo: false, pipeline: plainPipeline() });
    locked = await startRoom({ port: 0, data: folders[1], demo: false, pipeline: plainPipeline(), host: '0.0.0.0', passphrase: PASSPHRASE });
  });

  afterAll(async () => {
    await open.close();
    await room.close();
    await locked.close();
    for (const folder of folders) rmSync(folder, { recursive: true, force: true });
  });

  it.each(Object.entries(SIZES))('never scroll sideways, and every target is large enough (%s)', async (_, viewport) => {
    const { page, faults } = await openPage(open, { viewport, hasTouch: true });
    for (const address of [`${room.address}help`, `${room.address}settings`, locked.address]) {
      await page.goto(address, { waitUntil: 'networkidle' });
      expect(await page.evaluate(() => document.documentElement.scrollWidth), address).toBeLessThanOrEqual(viewport.width);
      // links within a sentence may be as high as their line (WCAG 2.2, 2.5.8)
      const small = await page.evaluate(() =>
        [...document.querySelectorAll('button, input:not([type=hidden]), .plain-link, nav a')].map((one) => ({ text: one.textContent, ...(one.getBoundingClientRect().toJSON() as { width: number; height: number }) })).filter(({ width, height }) => width < 44 || height < 44),
      );
      expect(small, address).toEqual([]);
    }
    // the locked page answers 401, which the browser notes on its console
    expect(faults.filter((fault) => !fault.includes('401'))).toEqual([]);
  });

  it.each(['light', 'dark'] as const)('have no fault that axe calls serious (%s)', async (colorScheme) => {
    const context = await open.newContext({ viewport: SIZES.across, colorScheme, bypassCSP: true });
    const page = await context.newPage();
    for (const address of [`${room.address}help`, `${room.address}settings`, locked.address]) {
      await page.goto(address, { waitUntil: 'networkidle' });
      expect(await seriousFaults(page), address).toEqual([]);
    }
    await context.close();
  });

  it('let light and size be chosen, whatever the computer has, and print dark on white all the same', async () => {
    const { page } = await openPage(open, { colorScheme: 'light' });
    await page.goto(`${room.address}settings`);
    const ground = (): Promise<string> => page.evaluate(() => getComputedStyle(document.documentElement).backgroundColor);
    const type = (): Promise<number> => page.evaluate(() => Number.parseFloat(getComputedStyle(document.body).fontSize));
    const [light, usual] = [await ground(), await type()];
    await page.click('button[name="light"][value="dark"]');
    await page.click('button[name="size"][value="largest"]');
    expect(await ground()).not.toBe(light);
    expect(await type()).toBeGreaterThan(usual);
    await page.emulateMedia({ media: 'print' });
    // white
    expect(await ground()).toBe('rgb(255, 255, 255)');
    await page.emulateMedia({ media: 'screen', colorScheme: 'dark' });
    await page.click('button[name="light"][value="light"]');
    expect(await ground()).toBe(light);
    await page.click('button[name="light"][value="system"]');
    expect(await ground()).not.toBe(light);
    await page.click('button[name="size"][value="usual"]');
  });

  it('open to the passphrase by keys alone, go where one wanted to go, and lock again', async () => {
    const { page } = await openPage(open);
    await page.goto(`${locked.address}help#keys`);
    expect(await page.title()).toContain('The passphrase');
    await page.keyboard.type('not this one at all');
    await page.keyboard.press('Enter');
    expect(await page.locator('[role=alert]').textContent()).toContain('not the passphrase');
    await page.keyboard.type(PASSPHRASE);
    await page.keyboard.press('Enter');
    await page.waitForURL('**/help');
    expect(await page.evaluate(() => document.cookie)).not.toContain('barwise-session');
    await page.reload();
    expect(await page.locator('h1').textContent()).toBe('Help');
    await page.getByRole('button', { name: 'Lock the room on this device' }).press('Enter');
    await page.goto(locked.address);
    expect(await page.locator('h1').textContent()).toBe('The room is locked');
  });

  it('cannot be entered by a form on another page', async () => {
    const { page } = await openPage(open);
    await page.goto(locked.address);
    await page.fill('input[name=passphrase]', PASSPHRASE);
    await page.keyboard.press('Enter');
    await page.waitForFunction(() => document.querySelector('h1')?.textContent !== 'The room is locked');
    // a page of another origin on the same machine: the browser sends the cookie along to the same host, and its own origin
    const other = await page.context().newPage();
    await other.goto(room.address);
    const status = await other.evaluate((address) => {
      const form = Object.assign(document.createElement('form'), { method: 'post', action: `${address}settings` });
      form.append(Object.assign(document.createElement('input'), { name: 'language', value: 'american' }));
      document.body.append(form);
      return form.action;
    }, locked.address);
    // the other page's own policy lets no form out, so the request is made as a browser without one would make it
    const answer = await page.context().request.post(status, { form: { language: 'american', back: '/' }, headers: { origin: new URL(room.address).origin } });
    expect(answer.status()).toBe(403);
  });
});
