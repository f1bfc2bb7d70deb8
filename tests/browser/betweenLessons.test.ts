/** Two recordings, the weeks, lesson sheet and term report: in a browser and on paper. */
import { expect, it } from 'vitest';
import { seriousFaults } from './axe.js';
import { describeInRoom } from './inRoom.js';
import { openPage, SIZES } from './room.js';

/** The demo's recording of a march with even dots and a covered tune, and the one after it. */
const EARLIER = 'pupils/asha-vellory/recordings/6';
const LATER = 'pupils/asha-vellory/recordings/19';
const PAGES = [`${LATER}/since/6`, 'pupils/asha-vellory/pieces/quayside-march', `${EARLIER}/sheet`, 'pupils/asha-vellory/lesson', 'pupils/asha-vellory/report'];

/** Pages of a PDF, by its page objects (ISO 32000-1, 7.7.3.3), and whether its fonts are in it (FontFile2 or 3, 9.9). */
function inPdf(pdf: Buffer): { readonly pages: number; readonly fonts: boolean } {
  const text = pdf.toString('latin1');
  return { pages: text.match(/\/Type\s*\/Page\b(?!s)/g)?.length ?? 0, fonts: /\/FontFile[23]/.test(text) };
}

await describeInRoom('between lessons', {}, ({ browser, at }) => {
  it.each(Object.entries(SIZES))('no page scrolls sideways (%s)', async (_, viewport) => {
    const { page, faults } = await openPage(browser, { viewport });
    for (const path of PAGES) {
      await page.goto(at(path), { waitUntil: 'networkidle' });
      expect(await page.evaluate(() => document.documentElement.scrollWidth), path).toBeLessThanOrEqual(viewport.width);
    }
    expect(faults).toEqual([]);
  });

  it.each(['light', 'dark'] as const)('no page has a fault that axe calls serious (%s)', async (colorScheme) => {
    const { page } = await openPage(browser, { colorScheme, bypassCSP: true });
    for (const path of PAGES) {
      await page.goto(at(path), { waitUntil: 'networkidle' });
      expect(await seriousFaults(page), path).toEqual([]);
    }
  });

  it('the sheet is one side of both papers with every text at its longest and three excerpts, nothing cut', async () => {
    const { page } = await openPage(browser);
    await page.goto(at(`${EARLIER}/sheet`), { waitUntil: 'networkidle' });
    for (const [i, bar] of [[0, '3'], [1, '12'], [2, '20']] as const) await page.evaluate(([name, value]) => document.querySelectorAll<HTMLInputElement>(`[name=from${name}], [name=to${name}]`).forEach((field) => (field.value = value)), [String(i), bar] as const);
    for (const box of await page.locator('.lesson-sheet textarea').all()) await box.fill('word '.repeat(400).slice(0, Number(await box.getAttribute('maxlength')) - 1));
    await expect.poll(() => page.locator('[data-saving]').textContent(), { timeout: 20_000 }).toBe('saved');
    await page.reload({ waitUntil: 'networkidle' });
    expect(await page.locator('.lesson-sheet .excerpt svg').count()).toBe(3);
    expect(await page.locator('.lesson-sheet .excerpt .mark').count()).toBeGreaterThan(0);
    for (const [format, width, height] of [['A4', 688, 1016], ['Letter', 710, 950]] as const) {
      expect(inPdf(await page.pdf({ format })), format).toEqual({ pages: 1, fonts: true });
      await page.setViewportSize({ width, height });
      await page.emulateMedia({ media: 'print' });
      const cut = await page.evaluate(() => [...document.querySelectorAll('.lesson-sheet, .lesson-sheet textarea')].filter((one) => one.scrollHeight > one.clientHeight + 1).map(({ className }) => className));
      expect(cut, format).toEqual([]);
      await page.emulateMedia({ media: null });
    }
  });

  it('the sheet is made in two clicks from the review', async () => {
    const { page } = await openPage(browser);
    await page.goto(at(EARLIER), { waitUntil: 'networkidle' });
    await page.evaluate(() => Object.assign(window, { print: () => document.body.setAttribute('data-printed', '') }));
    await page.getByRole('link', { name: 'Lesson sheet' }).click();
    await page.evaluate(() => Object.assign(window, { print: () => document.body.setAttribute('data-printed', '') }));
    await page.getByRole('button', { name: 'Print it' }).click();
    await page.waitForSelector('body[data-printed]');
  });

  it('the weeks are a line over time, one number at a time', async () => {
    const { page } = await openPage(browser);
    await expect.poll(async () => {
      await page.goto(at('pupils/asha-vellory/pieces/quayside-march'), { waitUntil: 'networkidle' });
      return page.getByText('still being looked at').count();
    }, { timeout: 40_000 }).toBe(0);
    await page.getByRole('button', { name: 'stops' }).click();
    expect(await page.getByRole('button', { name: 'stops' }).getAttribute('aria-pressed')).toBe('true');
  });
});
