import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { build } from 'esbuild';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { OpenRoom } from '../../src/web/index.js';
import { seriousFaults } from './axe.js';
import { NO_BROWSER, openBrowser } from './browser.js';
import { openPage, openRoom, REVIEW, SIZES } from './room.js';
import type { SoundBench } from './soundPage.js';

const data = mkdtempSync(join(tmpdir(), 'barwise-sound-'));
const browser: Browser | null = await openBrowser();
if (browser === null) console.warn(NO_BROWSER);

declare const bench: SoundBench;

/** Keys as a test writes them: onset, release, pitch; as loud as the recorded tones unless told otherwise. */
const key = (onsetS: number, releaseS: number, pitch: number, levelDb = -7) => ({ onsetS, releaseS, pitch, levelDb, soft: 0 });
const DRY = [{ timeS: 0, contact: 1 }];

/** The demo room's recording whose bass blurs: "rowing-home/jonas-brekkewood-2025-10-14". */
const BLURRED = 'pupils/jonas-brekkewood/recordings/5';

describe.skipIf(browser === null)('the piano in a browser', () => {
  const open = browser!;
  let room: OpenRoom;
  let page: Page;

  beforeAll(async () => {
    room = await openRoom(data);
    const bundled = await build({ entryPoints: [join(import.meta.dirname, 'soundPage.ts')], bundle: true, format: 'iife', write: false, target: ['chrome110'] });
    const context = await open.newContext({ bypassCSP: true });
    page = await context.newPage();
    await page.goto(room.address);
    await page.addScriptTag({ content: bundled.outputFiles[0]!.text });
  }, 120_000);

  afterAll(async () => {
    await open.close();
    await room.close();
    rmSync(data, { recursive: true, force: true });
  });

  it('begins every tone within 3 ms of its moment, at any speed', async () => {
    const keys = [36, 45, 55, 60, 61, 64, 72, 79, 86, 93, 101].map((pitch, i) => key(0.3 + 0.5 * i, 0.4 + 0.5 * i, pitch, i % 2 === 0 ? -7 : -20));
    for (const speed of [1, 0.4]) {
      const found = await page.evaluate(async ({ keys, speed, DRY }) => {
        const samples = await bench.render({ playback: { keys, dampers: DRY, durationS: 7 }, speed, lengthS: 7 / speed });
        return keys.map(({ onsetS }) => bench.onsetNear(samples, 0.01 + onsetS / speed));
      }, { keys, speed, DRY });
      found.forEach((timeS, i) => expect(Math.abs(timeS - 0.01 - keys[i]!.onsetS / speed), `key ${keys[i]!.pitch} at speed ${speed}`).toBeLessThanOrEqual(0.003));
    }
  }, 60_000);

  it('rings under the pedal and stops at its lift, without a click', async () => {
    const found = await page.evaluate(async ({ keys, DRY }) => {
      const pedalled = await bench.render({ playback: { keys, dampers: [...DRY, { timeS: 0.2, contact: 0 }, { timeS: 2, contact: 1 }], durationS: 3 }, lengthS: 3 });
      const dry = await bench.render({ playback: { keys, dampers: DRY, durationS: 3 }, lengthS: 3 });
      return { held: bench.levelDb(pedalled, 1.5, 1.9), after: bench.levelDb(pedalled, 2.5, 2.8), dry: bench.levelDb(dry, 1.5, 1.9), steepBefore: bench.steepest(pedalled, 1.9, 2), steepAtLift: bench.steepest(pedalled, 2, 2.05) };
    }, { keys: [key(0.1, 0.3, 48), key(0.1, 0.3, 60), key(0.1, 0.3, 64)], DRY });
    // a damper takes 40 dB in 0.1-0.3 s; half a second after the lift less than a hundredth is left
    expect(found.after).toBeLessThan(found.held - 40);
    expect(found.dry).toBeLessThan(found.held - 40);
    expect(found.steepAtLift).toBeLessThanOrEqual(1.2 * found.steepBefore);
  });

  it('lets a key be heard coming up, far under the tone', async () => {
    const found = await page.evaluate(async ({ keys, DRY }) => {
      const playback = { keys, dampers: DRY, durationS: 2 };
      const [with_, without] = [await bench.render({ playback, lengthS: 2, keysUp: true }), await bench.render({ playback, lengthS: 2 })];
      return { tone: bench.levelDb(with_, 0.2, 0.4), up: bench.levelDb(with_, 0.85, 1), silence: bench.levelDb(without, 0.85, 1) };
    }, { keys: [key(0.1, 0.5, 60)], DRY });
    // the damper has silenced the string by then (above): what is left is the key
    expect(found.up).toBeGreaterThan(found.silence + 6);
    expect(found.up).toBeLessThan(found.tone - 30);
  });

  it('lets a half pedal ring for less time than a whole one and for more than none', async () => {
    const levels = await page.evaluate(async ({ keys }) => Promise.all([0, 0.125, 0.5, 1].map(async (contact) => {
      const samples = await bench.render({ playback: { keys, dampers: [{ timeS: 0, contact }], durationS: 2 }, lengthS: 2 });
      return bench.levelDb(samples, 0.55, 0.65);
    })), { keys: [key(0.1, 0.4, 55)] });
    for (let i = 1; i < levels.length; i += 1) expect(levels[i]).toBeLessThan(levels[i - 1]! - 3);
  });

  it('has less of the old notes after each change with the pedal cleared', async () => {
    const found = await page.evaluate(async (address) => {
      const [played, cleared] = await Promise.all([bench.fetchVersion(address, 'played'), bench.fetchVersion(address, 'pedal')]);
      const pairs: { readonly played: number; readonly cleared: number }[] = [];
      for (const { startS } of cleared.changes) {
        // only what was struck before the change is sounded; heard from 0.4 to 0.9 s after it, when every damper is done
        const from = Math.max(0, startS - 4);
        const levels = await Promise.all([played, cleared].map(async ({ playback }) => {
          const samples = await bench.render({ playback, fromS: from, lengthS: 6, before: startS - 0.03, gain: 1 });
          return bench.levelDb(samples, startS - from + 0.41, startS - from + 0.91);
        }));
        pairs.push({ played: levels[0]!, cleared: levels[1]! });
      }
      return pairs;
    }, `${room.address}${BLURRED}/sound`);
    expect(found.length).toBeGreaterThanOrEqual(5);
    for (const { played, cleared } of found) expect(cleared).toBeLessThan(played - 6);
  }, 120_000);

  it('does not clip with every key struck as hard as can be under the pedal', async () => {
    const heights = await page.evaluate(async () => {
      const keys = Array.from({ length: 5 }, (_, round) => Array.from({ length: 88 }, (_, i) => ({ onsetS: 0.1 + 0.15 * round, releaseS: 0.15 + 0.15 * round, pitch: 21 + i, levelDb: 0, soft: 0 }))).flat();
      const playback = { keys, dampers: [{ timeS: 0, contact: 0 }], durationS: 2 };
      const heightOf = (samples: Float32Array): number => samples.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
      return [heightOf(await bench.render({ playback, lengthS: 1.5 })), heightOf(await bench.render({ playback, lengthS: 1.5, gain: 1.5 }))];
    });
    for (const height of heights) expect(height).toBeLessThan(1);
    // at the level that suits it there is room left; turned up as far as can be it is bent and still not cut
    expect(heights[0]).toBeGreaterThan(0.1);
    expect(heights[1]).toBeGreaterThan(0.7);
  }, 60_000);

  it('never has more voices than it may', async () => {
    const most = await page.evaluate(() => {
      const keys = Array.from({ length: 600 }, (_, i) => ({ onsetS: 0.01 * i, releaseS: 0.01 * i + 0.005, pitch: 21 + (i % 88), levelDb: -5, soft: 0 }));
      const voices = bench.voicesOf({ keys, dampers: [{ timeS: 0, contact: 0 }], durationS: 10 }, 1);
      const ends = voices.map(({ course }) => course.at(-1)!.timeS);
      // counted at each beginning, those that are just yielding (30 ms, three strokes) left out
      return Math.max(...voices.map(({ startS }) => voices.filter((voice, i) => voice.startS <= startS && ends[i]! > startS + 0.031).length));
    });
    expect(most).toBeLessThanOrEqual(72);
  });

  it('leaves no tone over after going elsewhere, looping, changing version and speed, stopping', async () => {
    const found = await page.evaluate(async (address) => {
      const [played, cleared] = await Promise.all([bench.fetchVersion(address, 'played'), bench.fetchVersion(address, 'pedal')]);
      const { player, height, context } = await bench.live(played);
      const wait = (ms: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, ms));
      const run = { fromS: 8, untilS: 8.6, loop: true, countIn: { beats: 0, beatS: 0 } };
      player.play(run);
      await wait(1500);
      const looping = { height: height(), at: player.position() };
      player.choose(cleared);
      await wait(200);
      player.setSpeed(0.4);
      await wait(300);
      player.play({ ...run, fromS: 30, untilS: null, loop: false });
      await wait(400);
      const elsewhere = { height: height(), at: player.position() };
      player.choose(played);
      player.setSpeed(1);
      await wait(200);
      player.stop();
      await wait(400);
      const after = { height: height(), tones: player.sounding, at: player.position() };
      await context.close();
      return { looping, elsewhere, after };
    }, `${room.address}${BLURRED}/sound`);
    expect(found.looping.height).toBeGreaterThan(0.001);
    expect(found.looping.at).toBeGreaterThanOrEqual(7.9);
    expect(found.looping.at).toBeLessThanOrEqual(8.6);
    expect(found.elsewhere.height).toBeGreaterThan(0.001);
    expect(found.elsewhere.at).toBeGreaterThan(30);
    expect(found.after).toEqual({ height: 0, tones: 0, at: null });
  }, 60_000);

  it('is played from the review by the space bar, with a cursor on the score, and changes version at the same bar', async () => {
    const { page: review, faults } = await openPage(open);
    await review.goto(`${room.address}${REVIEW}`);
    await review.focus('.bar-target[data-bar="2"]');
    await review.keyboard.press(' ');
    await review.waitForSelector('.listen-cursor');
    await review.waitForFunction(() => /^bar \d/.test(document.querySelector('[data-listen-where]')?.textContent ?? ''));
    const before = await review.textContent('[data-listen-where]');
    await review.selectOption('[data-listen-version]', 'printed');
    await review.waitForTimeout(600);
    expect(await review.getAttribute('[data-listen-played]', 'aria-pressed')).toBe('false');
    // the same bar, or the next by now
    const bar = (text: string | null): number => Number(/\d+/.exec(text ?? '')?.[0]);
    expect(bar(await review.textContent('[data-listen-where]')) - bar(before)).toBeLessThanOrEqual(1);
    await review.keyboard.press('Escape');
    await review.evaluate(() => (document.activeElement as HTMLElement).blur());
    await review.keyboard.press(' ');
    await review.waitForSelector('.listen-cursor', { state: 'detached' });
    expect(await review.textContent('[data-listen-play]')).toBe('play');
    expect(faults).toEqual([]);
  }, 120_000);

  it.each(Object.entries(SIZES))('fits the window and can be reached by everybody (%s)', async (_name, viewport) => {
    for (const path of [REVIEW, `${REVIEW}/as-it-could-be`, 'record', 'scales']) {
      const { page: shown, faults } = await openPage(open, { viewport, bypassCSP: true });
      await shown.addInitScript(() => Object.assign(navigator, { requestMIDIAccess: () => Promise.resolve(Object.assign(new EventTarget(), { inputs: new Map() })) }));
      await shown.goto(`${room.address}${path}`);
      if (path === REVIEW) await shown.click('.listen-more summary');
      expect(await shown.evaluate(() => document.documentElement.scrollWidth - window.innerWidth), path).toBeLessThanOrEqual(0);
      expect(await seriousFaults(shown), path).toEqual([]);
      expect(faults).toEqual([]);
    }
  }, 120_000);

  it('plays the same bars of another recording after this one, at one level', async () => {
    const { page: review, faults } = await openPage(open);
    await review.goto(`${room.address}${BLURRED}`);
    await review.focus('[data-listen-play]');
    await review.waitForSelector('[data-listen-from] option:nth-child(4)', { state: 'attached' });
    await review.click('.listen-more summary');
    const other = await review.getAttribute('[data-listen-other] option:nth-child(2)', 'value');
    await review.selectOption('[data-listen-from]', '2');
    await review.selectOption('[data-listen-to]', '2');
    await review.selectOption('[data-listen-other]', other);
    await review.click('[data-listen-play]');
    await review.waitForFunction(() => document.querySelector('[data-listen-words]')?.textContent.startsWith('Now the recording of'), undefined, { timeout: 60_000 });
    await review.waitForFunction(() => document.querySelector('[data-listen-play]')?.textContent === 'play', undefined, { timeout: 60_000 });
    // one of the two is turned down, or neither; none is turned up
    const { here, there } = await review.evaluate(async ({ address, number, id }) => {
      const gainOf = async (url: string): Promise<number> => ((await (await fetch(url)).json()) as { gainDb: number }).gainDb;
      return { here: await gainOf(`${address}/sound?beside=${id}`), there: await gainOf(`/pupils/jonas-brekkewood/recordings/${id}/sound?beside=${number}`) };
    }, { address: `/${BLURRED}`, number: BLURRED.split('/').at(-1)!, id: other! });
    expect(Math.max(here, there)).toBe(0);
    expect(Math.min(here, there)).toBeLessThanOrEqual(0);
    expect(faults).toEqual([]);
  }, 120_000);

  it('says that the sound is not to be had where the room is gone, and plays when it is back', async () => {
    const { page: review } = await openPage(open);
    await review.goto(`${room.address}${REVIEW}`);
    await review.route('**/piano/**', (route) => route.abort());
    await review.click('[data-listen-play]');
    await review.waitForFunction(() => document.querySelector('[data-listen-words]')?.textContent.includes('not to be had'));
    await review.unroute('**/piano/**');
    await review.click('[data-listen-play]');
    await review.waitForSelector('.listen-cursor', { timeout: 60_000 });
  }, 120_000);

  it('makes no sound and loads nothing before somebody asks', async () => {
    const { page: review } = await openPage(open);
    const asked: string[] = [];
    review.on('request', (request) => asked.push(new URL(request.url()).pathname));
    await review.goto(`${room.address}${REVIEW}`);
    await review.waitForSelector('[data-listen-play]');
    expect(asked.filter((path) => /\/piano\/|\/sound$/.test(path))).toEqual([]);
  });
});
