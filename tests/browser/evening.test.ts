/** An evening's work: ten files dropped, their pupils found, one answered from the desk, one written about, printed. */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { openStore } from '../../src/store/index.js';
import { seriousFaults } from './axe.js';
import { describeInRoom } from './inRoom.js';
import { openPage, SIZES } from './room.js';

/** Files of the demo room, invented. */
const SAMPLES = fileURLToPath(new URL('../../sample-recordings/', import.meta.url));

/** What comes in on one evening: nine recordings with names, one without, one that is none. */
const EVENING = [
  'rowing-home/mei-castellow-2025-10-07.mid', 'rowing-home/mei-castellow-2025-10-21.mid', 'rowing-home/jonas-brekkewood-2025-10-14.mid',
  'quayside-march/asha-vellory-2025-10-16.mid', 'quayside-march/nilo-tarrand-2025-10-08.mid', 'quayside-march/desmond-yarrick-2025-10-19.mid',
  'gull-chase/asha-vellory-2025-10-30.mid', 'gull-chase/jonas-brekkewood-2025-11-06.mid',
] as const;

const NAMES = ['Mei Castellow', 'Jonas Brekkewood', 'Asha Vellory', 'Nilo Tarrand', 'Desmond Yarrick'] as const;
const PIECES = [['Rowing Home', 'rowing-home'], ['Quayside March', 'quayside-march'], ['Gull Chase', 'gull-chase']] as const;

/** Pupils and scores, nothing sent yet. */
function furnish(data: string): void {
  const store = openStore(data);
  for (const name of NAMES) store.setConsent(store.addPupil(name).id, { adult: true });
  store.setLesson(1, { day: 3, time: '16:30' });
  for (const [title, slug] of PIECES) store.addPiece({ title, score: { name: 'score.musicxml', bytes: readFileSync(`${SAMPLES}${slug}/score.musicxml`) } });
  store.close();
}

/** A file as a browser sends it. */
function file(path: string, name = path.split('/').pop() ?? path) {
  return { name, mimeType: 'audio/midi', buffer: readFileSync(SAMPLES + path) };
}

/** Drops files on the page as a hand does. */
async function drop(page: Page, files: readonly { readonly name: string; readonly buffer: Buffer }[]): Promise<void> {
  const carried = files.map(({ name, buffer }) => ({ name, content: buffer.toString('base64') }));
  await page.evaluate((all) => {
    const transfer = new DataTransfer();
    for (const { name, content } of all) transfer.items.add(new File([Uint8Array.from(atob(content), (letter) => letter.charCodeAt(0))], name));
    document.body.dispatchEvent(new DragEvent('drop', { dataTransfer: transfer, bubbles: true, cancelable: true }));
  }, carried);
}

await describeInRoom('an evening', { demo: false, furnish }, ({ browser, at, data }) => {
  it('begins with ten files dropped at once, which find pupil and piece, and ends with comments printed', async () => {
    const { page, faults } = await openPage(browser, { viewport: SIZES.desk });
    await page.goto(at());
    await drop(page, [...EVENING.map((path) => file(path)), file('evening-over-skerrowby/mei-castellow-2025-11-04.mid', 'USER001.MID'), { name: 'notes.txt', buffer: Buffer.from('not music') }]);
    await page.click('form[data-drop] button[type="submit"]');
    await page.waitForSelector('[data-filed]');
    const told = await page.locator('[data-filed] .filed > p').allTextContents();
    expect(told).toHaveLength(10);
    expect(told.filter((text) => text.includes('Filed: '))).toHaveLength(EVENING.length);
    expect(told.find((text) => text.startsWith('notes.txt'))).toContain('This is not a MIDI file');
    // no score of this piece is here: it waits, and is filed when it comes
    expect(await page.locator('.waiting li').allTextContents()).toEqual([expect.stringContaining('No piece here fits')]);
    await page.setInputFiles('[name="score"]', `${SAMPLES}evening-over-skerrowby/score.musicxml`);
    await page.click('form[data-drop] button[type="submit"]');
    await page.waitForFunction(() => document.querySelector('.waiting')?.textContent.includes('Whose is it?') === true);
    await page.click('.waiting button[value="mei-castellow"]');
    await page.waitForFunction(() => document.querySelectorAll('.came-in > li').length === 9 && document.querySelector('.waiting') === null);
    // answered from the desk with a ready sentence, changed
    const line = page.locator('.desk-line', { hasText: 'Nilo Tarrand' });
    await line.locator('details.answer > summary').click();
    const ready = (await line.locator('.ready label').first().textContent())?.trim() ?? '';
    await line.locator('.ready label').first().click();
    expect(await line.locator('textarea').inputValue()).toBe(ready);
    await line.locator('textarea').pressSequentially(' Three times a day.');
    await line.locator('button[type="submit"]', { hasText: 'Save' }).click();
    await page.waitForFunction(() => [...document.querySelectorAll('.desk-line')].some((one) => one.textContent.includes('heard, one comment')));
    // another one is opened and written about, with a phrase of her own
    await page.locator('.desk-line a', { hasText: 'Asha Vellory' }).filter({ hasText: 'Gull Chase' }).click();
    await page.waitForSelector('.margin');
    await page.evaluate(() => (window.location.hash = '#bar-3'));
    const box = page.locator('#bar-3 form[data-new] textarea');
    await box.pressSequentially('Thr');
    await page.waitForSelector('[role="option"]');
    expect(await page.locator('[role="option"]').allTextContents()).toEqual(['Three times a day.']);
    await page.keyboard.press('ArrowDown');
    expect(await page.evaluate(() => document.activeElement?.getAttribute('aria-activedescendant'))).toBe('own-phrase-0');
    await page.keyboard.press('Enter');
    expect(await box.inputValue()).toBe('Three times a day.');
    await page.waitForFunction(() => document.querySelector('#bar-3 [data-saving]')?.textContent === 'saved');
    // on paper: the comment, and nothing to press
    await page.emulateMedia({ media: 'print' });
    expect(await page.locator('.written', { hasText: 'Three times a day.' }).isVisible()).toBe(true);
    expect(await page.locator('button:visible, textarea:visible, select:visible').count()).toBe(0);
    expect((await page.pdf()).length).toBeGreaterThan(10_000);
    expect(faults).toEqual([]);
  }, 240_000);

  it('gives a recording to another pupil with one tap, and undoes it', async () => {
    const { page } = await openPage(browser);
    await page.goto(at());
    await page.setInputFiles('[name="recordings"]', [file('rowing-home/mei-castellow-2025-09-30.mid'), file('quayside-march/nilo-tarrand-2025-10-22.mid')]);
    await page.click('form[data-drop] button[type="submit"]');
    await page.waitForSelector('[data-filed] .acts');
    await page.locator('[data-filed] .filed', { hasText: '2025-09-30' }).locator('button', { hasText: 'Jonas' }).click();
    await page.waitForURL('**/?moved=*');
    expect(await page.textContent('.message')).toContain('Now filed: Jonas Brekkewood, Rowing Home.');
    await page.click('.message button');
    await page.waitForFunction(() => document.querySelector('.message')?.textContent.includes('Now filed: Mei Castellow') === true);
  });

  it('is done with the keyboard alone', async () => {
    const { page } = await openPage(browser);
    await page.goto(at());
    const name = await page.locator('.desk-line.unheard').first().getAttribute('id');
    const focused = (selector: string): Promise<boolean> => page.evaluate((of) => document.activeElement?.matches(of) === true, selector);
    const tabTo = async (selector: string): Promise<void> => {
      for (let n = 0; n < 60 && !(await focused(selector)); n++) await page.keyboard.press('Tab');
      expect(await focused(selector), selector).toBe(true);
    };
    await tabTo(`#${name ?? ''} details.answer > summary`);
    await page.keyboard.press('Enter');
    await tabTo(`#${name ?? ''} .answer textarea`);
    await page.keyboard.type('Well prepared.');
    await tabTo(`#${name ?? ''} .answer button`);
    await page.keyboard.press('Enter');
    await page.waitForFunction((id) => document.getElementById(id ?? '')?.textContent.includes('heard, one comment') === true, name);
    expect(await focused(`#${name ?? ''} summary`)).toBe(true);
  });

  it('loses no word when the room dies and the window is closed, and keeps one comment', async () => {
    const { page } = await openPage(browser);
    page.on('dialog', (dialog) => void dialog.accept());
    await page.goto(at());
    const form = '.desk-line:last-child .answer';
    await page.route('**/comments', (route) => route.abort());
    await page.click(`${form} > summary`);
    await page.fill(`${form} textarea`, 'Kept through the night.');
    await page.waitForFunction((selector) => document.querySelector(`${selector} [data-saving]`)?.textContent.includes('kept in this browser') === true, form);
    await page.reload();
    expect(await page.inputValue(`${form} textarea`)).toBe('Kept through the night.');
    await page.unroute('**/comments');
    await page.waitForFunction((selector) => document.querySelector(`${selector} [data-saving]`)?.textContent === 'saved', form);
    await page.reload();
    expect(await page.inputValue(`${form} textarea`)).toBe('');
    const store = openStore(data);
    expect(store.textsWritten().filter((text) => text === 'Kept through the night.')).toHaveLength(1);
    store.close();
  });

  it('is done without script: a ready sentence is ticked and sent, a comment settled', async () => {
    const { page } = await openPage(browser, { javaScriptEnabled: false });
    await page.goto(at());
    const line = page.locator('.desk-line', { hasText: 'Desmond Yarrick' });
    await line.locator('details.answer > summary').click();
    const ready = (await line.locator('.ready label').first().textContent())?.trim() ?? '';
    await line.locator('.ready input').first().check();
    await line.locator('.answer button').click();
    await page.waitForURL('**/#recording-*');
    await page.goto(at('pupils/desmond-yarrick'));
    expect(await page.locator('.said.open .said-text').allTextContents()).toEqual([ready]);
    await page.locator('.said.open button').click();
    expect(await page.locator('.said.open').count()).toBe(0);
    expect(await page.locator('.said .settled').count()).toBe(1);
  });

  it.each(['light', 'dark'] as const)('has no fault that axe calls serious, and fits the phone (%s)', async (colorScheme) => {
    const { page, faults } = await openPage(browser, { viewport: SIZES.phone, colorScheme, bypassCSP: true });
    await page.goto(at());
    const recording = ((await page.locator('.desk-line > a', { hasText: 'Mei Castellow' }).first().getAttribute('href')) ?? '').slice(1);
    for (const path of ['', '?show=unheard', 'pupils/mei-castellow', 'pupils/mei-castellow/erase', `${recording}/move`, `${recording}/message`, 'copies']) {
      await page.goto(at(path));
      for (const summary of await page.locator('main summary:visible').all()) if (await summary.isVisible()) await summary.click();
      expect(await seriousFaults(page), path).toEqual([]);
      expect(await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth), path).toBe(0);
    }
    expect(faults).toEqual([]);
  });
});
