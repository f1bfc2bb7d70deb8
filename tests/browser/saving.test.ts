import type { Page, Route } from 'playwright-core';
import { expect, it } from 'vitest';
import { describeInRoom } from './inRoom.js';
import { openPage, REVIEW } from './room.js';

/** A gate that one request waits at. */
function gate(): { readonly opened: Promise<void>; readonly open: () => void } {
  let open = (): void => undefined;
  const opened = new Promise<void>((resolve) => (open = resolve));
  return { opened, open: () => open() };
}

/** Waits until the form's own words say that its text is on the disk. */
function saysSaved(page: Page, form: string): Promise<unknown> {
  return page.waitForFunction((selector) => document.querySelector(`${selector} [data-saving]`)?.textContent === 'saved', form);
}

await describeInRoom('saving in a browser', {}, ({ browser, at }) => {
  it('sends the texts of one form one after another, so that the newest stays', async () => {
    const { page, faults } = await openPage(browser);
    await page.goto(at(`${REVIEW}#bar-3`));
    const form = '#bar-3 form[data-new]';
    const second = gate();
    const texts: string[] = [];
    // the first request is held back until a second one has overtaken it, or long enough for that
    await page.route('**/comments', async (route: Route) => {
      texts.push(new URLSearchParams(route.request().postData() ?? '').get('text') ?? '');
      if (texts.length === 1) await Promise.race([second.opened, new Promise((resolve) => setTimeout(resolve, 2500))]);
      const response = await route.fetch();
      await route.fulfill({ response });
      if (texts.length === 2) second.open();
    });
    await page.fill(`${form} textarea`, 'Older.');
    await page.waitForRequest('**/comments');
    await page.fill(`${form} textarea`, 'Newer.');
    await saysSaved(page, form);
    expect(texts).toEqual(['Older.', 'Newer.']);
    await page.reload();
    expect(await page.textContent('#bar-3 [data-comment-text]')).toBe('Newer.');
    expect(faults).toEqual([]);
  });

  it('keeps the unsaved words of another comment when a drawer is renewed, and the cursor in them', async () => {
    const { page } = await openPage(browser);
    await page.goto(at(`${REVIEW}#bar-4`));
    await page.fill('#bar-4 form[data-new] textarea', 'First.');
    await page.click('#bar-4 form[data-new] button');
    await page.waitForSelector('#bar-4 [data-comment-text]');
    // the change of the first comment cannot be saved for now
    await page.route('**/comments/*', (route) => route.abort());
    await page.click('#bar-4 article details summary');
    await page.fill('#bar-4 article textarea', 'First, slowly.');
    await page.fill('#bar-4 form[data-new] textarea', 'Second.');
    await page.click('#bar-4 form[data-new] button');
    await page.focus('#bar-4 article textarea');
    await page.waitForFunction(() => document.querySelectorAll('#bar-4 article').length === 2);
    expect(await page.inputValue('#bar-4 article textarea >> nth=0')).toBe('First, slowly.');
    expect(await page.evaluate(() => document.activeElement instanceof HTMLTextAreaElement && document.activeElement.value)).toBe('First, slowly.');
    await page.unroute('**/comments/*');
    await page.locator('#bar-4 article form[data-autosave] button').first().click();
    await page.waitForFunction(() => document.querySelector('#bar-4 [data-comment-text]')?.textContent === 'First, slowly.');
  });
});
