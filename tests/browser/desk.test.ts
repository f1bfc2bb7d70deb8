import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';
import { createPipeline } from '../../src/pipeline/index.js';
import { describeInRoom } from './inRoom.js';
import { openPage } from './room.js';

/** Files of the demo room, invented. */
const SAMPLES = fileURLToPath(new URL('../../sample-recordings/', import.meta.url));
const TAKE = 'mei-castellow-2025-10-21.mid';

// readings wait at this gate while it is closed
const gate = { closed: Promise.resolve(), open: (): void => undefined };
const pipeline = createPipeline();

await describeInRoom('the desk in a browser', { demo: false, pipeline: { ...pipeline, reading: (score, recording) => gate.closed.then(() => pipeline.reading(score, recording)) } }, ({ browser, at }) => {
  it('says what is happening to each file, and goes to the review when it is done', async () => {
    const { page, faults } = await openPage(browser);
    await page.goto(at());
    gate.closed = new Promise((resolve) => (gate.open = resolve));
    await page.setInputFiles('[name="recordings"]', join(SAMPLES, 'rowing-home', TAKE));
    await page.setInputFiles('[name="score"]', join(SAMPLES, 'rowing-home', 'score.musicxml'));
    await page.fill('[name="newPupil"]', 'Mei Castellow');
    await page.click('form[data-drop] button[type="submit"]');
    await page.waitForFunction(() => document.querySelector('[data-progress]:not([hidden])')?.textContent.includes('matching its notes'));
    expect(await page.locator('[data-progress] li').allTextContents()).toEqual([
      `${TAKE}: matching its notes with “Rowing Home”`,
      'score.musicxml: Filed as the score of Rowing Home.',
    ]);
    expect(await page.isDisabled('form[data-drop] button[type="submit"]')).toBe(true);
    gate.open();
    await page.waitForURL('**/pupils/mei-castellow/recordings/1');
    expect(faults).toEqual([]);
  });

  it('shows what became of several files on the desk, which takes the next ones at once', async () => {
    const { page, faults } = await openPage(browser);
    await page.goto(at());
    const send = async (...files: string[]): Promise<void> => {
      await page.setInputFiles('[name="recordings"]', files.map((file) => join(SAMPLES, file)));
      await page.click('.say-self > summary');
      await page.selectOption('form[data-drop] [name="pupil"]', 'mei-castellow');
      await page.click('form[data-drop] button[type="submit"]');
    };
    await send('rowing-home/mei-castellow-2025-10-07.mid', 'README.md');
    await page.waitForSelector('[data-filed]');
    expect(await page.locator('[data-filed] .filed > p').allTextContents()).toEqual([expect.stringContaining('Filed: Mei Castellow, Rowing Home.'), expect.stringContaining('This is not a MIDI file')]);
    expect(await page.locator('.came-in > li').count()).toBe(2);
    expect(await page.evaluate(() => document.activeElement?.hasAttribute('data-filed'))).toBe(true);
    await send('rowing-home/mei-castellow-2025-10-07.mid');
    await page.waitForURL('**/pupils/mei-castellow/recordings/2');
    expect(faults).toEqual([]);
  });

  it('keeps the files chosen where the room does not answer', async () => {
    const { page } = await openPage(browser);
    await page.goto(at());
    await page.route('**/files', (route) => route.abort());
    await page.setInputFiles('[name="recordings"]', join(SAMPLES, 'rowing-home', TAKE));
    await page.click('form[data-drop] button[type="submit"]');
    await page.waitForFunction(() => document.querySelector('[data-progress]:not([hidden])')?.textContent.includes('The room does not answer.'));
    expect(await page.evaluate(() => document.querySelector<HTMLInputElement>('[name="recordings"]')?.files?.length)).toBe(1);
    expect(await page.isDisabled('form[data-drop] button[type="submit"]')).toBe(false);
  });
});
