import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import type { OpenRoom } from '../../src/web/index.js';
import { seriousFaults } from './axe.js';
import { NO_BROWSER, openBrowser } from './browser.js';
import { openPage, openRoom, SIZES } from './room.js';

const data = mkdtempSync(join(tmpdir(), 'barwise-plan-'));
const browser: Browser | null = await openBrowser();

if (browser === null) console.warn(NO_BROWSER);

/** Ticks of all rings, in order. */
const ringsOf = (page: Page): Promise<string[]> => page.evaluate(() => [...document.querySelectorAll('.plan-grip')].map((grip) => grip.getAttribute('data-tick') ?? ''));

/** Middle of a ring on the screen. */
async function middleOf(page: Page, tick: string): Promise<{ x: number; y: number }> {
  const box = await page.locator(`.plan-grip[data-tick="${tick}"] circle`).boundingBox();
  return { x: box!.x + box!.width / 2, y: box!.y + box!.height / 2 };
}

/** Waits until the rings are other ones. */
async function changed(page: Page, from: readonly string[]): Promise<string[]> {
  await page.waitForFunction((before) => [...document.querySelectorAll('.plan-grip')].map((grip) => grip.getAttribute('data-tick')).join() !== before, from.join());
  return ringsOf(page);
}

describe.skipIf(browser === null)('the pedal plan in a browser', () => {
  const open = browser!;
  let room: OpenRoom;
  const piece = (): string => `${room.address}pieces/rowing-home`;

  beforeAll(async () => {
    room = await openRoom(data);
  });

  // each case begins with the program's plan
  afterEach(async () => {
    await fetch(`${piece()}/pedal`, { method: 'POST', body: new URLSearchParams({ act: 'program' }) });
  });

  afterAll(async () => {
    await open.close();
    await room.close();
    rmSync(data, { recursive: true, force: true });
  });

  it('is dragged along the line to the nearest beat or onset, and undone', async () => {
    const { page, faults } = await openPage(open);
    await page.goto(piece(), { waitUntil: 'networkidle' });
    const before = await ringsOf(page);
    const third = before[3]!;
    const places = await page.evaluate((tick) => document.querySelector(`.plan-grip[data-tick="${tick}"]`)!.parentElement!.querySelector('.plan-ground')!.getAttribute('data-places')!.split(';').map((one) => one.split('|')), third);
    const own = places.findIndex(([tick]) => tick === third);
    const [aim, next] = [places[own + 2]!, places[own + 3]!];
    const from = await middleOf(page, third);
    await page.mouse.move(from.x, from.y);
    await page.mouse.down();
    // a third of the way past the second place after it: that place is the nearest
    const to = from.x + Number(aim[1]) - Number(places[own]![1]) + (Number(next[1]) - Number(aim[1])) / 3;
    await page.mouse.move((from.x + to) / 2, from.y + 5, { steps: 4 });
    await page.mouse.move(to, from.y + 5, { steps: 4 });
    expect(await page.locator('.plan-where').textContent()).toBe(aim[2]);
    await page.mouse.up();
    const after = await changed(page, before);
    expect(after).toEqual(before.map((tick) => (tick === third ? aim[0] : tick)));
    await page.locator('[data-plan-message] button', { hasText: 'undo' }).click();
    expect(await changed(page, after)).toEqual(before);
    expect(faults).toEqual([]);
  });

  it('stays where it was after Escape, and stops before the next change', async () => {
    const { page } = await openPage(open);
    await page.goto(piece(), { waitUntil: 'networkidle' });
    const before = await ringsOf(page);
    const from = await middleOf(page, before[2]!);
    const far = await middleOf(page, before[4]!);
    await page.mouse.move(from.x, from.y);
    await page.mouse.down();
    await page.mouse.move(far.x, from.y, { steps: 6 });
    await page.keyboard.press('Escape');
    await page.mouse.up();
    expect(await ringsOf(page)).toEqual(before);
    await page.mouse.move(from.x, from.y);
    await page.mouse.down();
    await page.mouse.move(far.x, from.y, { steps: 6 });
    await page.mouse.up();
    const after = await changed(page, before);
    expect(Number(after[2])).toBeGreaterThan(Number(before[2]));
    expect(Number(after[2])).toBeLessThan(Number(before[3]));
  });

  it('is dragged by a finger, and asks where it is tapped', async () => {
    const { page, faults } = await openPage(open, { viewport: SIZES.upright, hasTouch: true });
    await page.goto(piece(), { waitUntil: 'networkidle' });
    const before = await ringsOf(page);
    const from = await middleOf(page, before[2]!);
    const touch = await page.context().newCDPSession(page);
    const send = (type: 'touchStart' | 'touchMove' | 'touchEnd', x: number): Promise<unknown> => touch.send('Input.dispatchTouchEvent', { type, touchPoints: type === 'touchEnd' ? [] : [{ x, y: from.y }] });
    await send('touchStart', from.x);
    for (const dx of [8, 16, 24, 32]) await send('touchMove', from.x + dx);
    await send('touchEnd', from.x + 32);
    const after = await changed(page, before);
    expect(Number(after[2])).toBeGreaterThan(Number(before[2]));
    // a tap on the ring asks
    const now = await middleOf(page, after[2]!);
    await page.touchscreen.tap(now.x, now.y);
    await page.locator('[data-plan-menu]').waitFor({ state: 'visible' });
    expect(await page.locator('#plan-menu-title').textContent()).toMatch(/^Pedal, bar \d+, /);
    await page.locator('[data-plan-menu] button', { hasText: 'take this change away' }).click();
    expect(await changed(page, after)).toEqual(after.filter((tick) => tick !== after[2]));
    expect(faults).toEqual([]);
  });

  it('takes a change anywhere on the line', async () => {
    const { page } = await openPage(open);
    await page.goto(piece(), { waitUntil: 'networkidle' });
    const before = await ringsOf(page);
    const [left, right] = [await middleOf(page, before[2]!), await middleOf(page, before[3]!)];
    await page.mouse.click((left.x + right.x) / 2, left.y + 8);
    await page.locator('[data-plan-menu]').waitFor({ state: 'visible' });
    await page.locator('[data-plan-menu] button', { hasText: 'let it ring' }).click();
    const after = await changed(page, before);
    expect(after).toHaveLength(before.length + 1);
    expect(await page.locator('.plan-entry.plan-ring').count()).toBeGreaterThan(0);
  });

  it('is changed by keys alone', async () => {
    const { page, faults } = await openPage(open);
    await page.goto(piece(), { waitUntil: 'networkidle' });
    const before = await ringsOf(page);
    await page.locator('#plan-places summary').focus();
    await page.keyboard.press('Enter');
    await page.locator(`#plan-${before[2]}`).focus();
    await page.keyboard.press('ArrowRight');
    const later = await changed(page, before);
    expect(Number(later[2])).toBeGreaterThan(Number(before[2]));
    // the keyboard went along with it
    expect(await page.evaluate(() => document.activeElement?.id)).toBe(`plan-${later[2]}`);
    await page.keyboard.press('ArrowLeft');
    expect(await changed(page, later)).toEqual(before);
    await page.keyboard.press('ArrowDown');
    expect(await page.evaluate(() => document.activeElement?.id)).toBe(`plan-${before[3]}`);
    await page.keyboard.press('-');
    const fewer = await changed(page, before);
    expect(fewer).toEqual(before.filter((tick) => tick !== before[3]));
    // the undo button has the keyboard next, or is reached from the row: here the table is open
    await page.locator(`#plan-${before[4]}`).focus();
    await page.keyboard.press('+');
    expect(await page.evaluate(() => document.activeElement?.hasAttribute('data-plan-from'))).toBe(true);
    await page.keyboard.press('ArrowDown');
    await page.locator('.drawer:target button', { hasText: 'let it ring' }).press('Enter');
    expect((await changed(page, fewer)).length).toBe(fewer.length + 1);
    expect(faults).toEqual([]);
  });

  it.each(['light', 'dark'] as const)('has no fault that axe calls serious, its table, form and menu open (%s)', async (colorScheme) => {
    const { page } = await openPage(open, { colorScheme, bypassCSP: true });
    await page.goto(`${piece()}#bar-3`, { waitUntil: 'networkidle' });
    await page.evaluate(() => document.querySelectorAll<HTMLDetailsElement>('#plan-places, .drawer:target .bar-plan').forEach((one) => (one.open = true)));
    expect(await seriousFaults(page)).toEqual([]);
    await page.evaluate(() => document.querySelector<HTMLDialogElement>('[data-plan-menu]')!.showModal());
    expect(await seriousFaults(page)).toEqual([]);
  });

  it.each(Object.entries(SIZES))('never scrolls sideways with its table open (%s)', async (_, viewport) => {
    const { page } = await openPage(open, { viewport });
    await page.goto(`${piece()}#bar-3`, { waitUntil: 'networkidle' });
    await page.evaluate(() => document.querySelectorAll<HTMLDetailsElement>('#plan-places, .drawer:target .bar-plan').forEach((one) => (one.open = true)));
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(viewport.width);
  });

  it('works without script', async () => {
    const { page } = await openPage(open, { javaScriptEnabled: false });
    await page.goto(`${piece()}#bar-5`);
    const rows = (): Promise<number> => page.locator('#plan-places [data-plan-row]').count();
    const before = await rows();
    const drawer = page.locator('#bar-5');
    await drawer.locator('.bar-plan summary').click();
    await drawer.locator('select[name="at"]').selectOption({ index: 3 });
    await drawer.locator('button', { hasText: 'no pedal' }).click();
    await page.locator('[data-plan-message]').waitFor();
    expect(await rows()).toBe(before + 1);
    await page.locator('[data-plan-message] button').click();
    expect(await page.locator('[data-plan-message]').textContent()).toContain('Taken back');
    expect(await rows()).toBe(before);
    // rings cannot be dragged without script, so there are none
    expect(await page.locator('.plan-ring').first().isVisible()).toBe(false);
  });
});
