import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { seriousFaults } from './axe.js';
import { describeInRoom } from './inRoom.js';
import { openPage, SIZES } from './room.js';

const PIECES = ['rowing-home', 'quayside-march', 'gull-chase', 'evening-over-skerrowby'] as const;

/** A stave space of the engraving, px. */
const STAVE_SPACE_PX = 7.56;

await describeInRoom('the page of a piece in a browser', {}, ({ browser, at: inRoom }) => {
  const at = (path: string): string => inRoom(`pieces/${path}`);

  it.each(PIECES)('puts every sign over its own bar, every bracket on bar lines (%s)', async (piece) => {
    for (const viewport of [SIZES.across, SIZES.phone]) {
      const { page, faults } = await openPage(browser, { viewport });
      await page.goto(at(piece), { waitUntil: 'networkidle' });
      const off = await page.evaluate(() =>
        [...document.querySelectorAll('.sheet')].flatMap((sheet) => {
          const box = (element: Element): DOMRect => element.getBoundingClientRect();
          const bars = [...sheet.querySelectorAll('.bar-target')].map((bar) => ({ bar: Number(bar.getAttribute('data-bar')), ...box(bar.querySelector('rect')!).toJSON() as { left: number; right: number } }));
          const edges = bars.flatMap(({ left, right }) => [left, right]);
          const looks = [...sheet.querySelectorAll('.mark-look')].map((mark) => {
            const middle = (box(mark).left + box(mark).right) / 2;
            const own = bars.find(({ bar }) => bar === Number(mark.getAttribute('data-bar')))!;
            return Math.max(own.left - middle, middle - own.right, 0);
          });
          const ends = [...sheet.querySelectorAll('.bracket')].flatMap((bracket) => {
            // the strokes, not the name
            const strokes = [...bracket.querySelectorAll('path')].map(box);
            return [Math.min(...strokes.map(({ left }) => left)), Math.max(...strokes.map(({ right }) => right))].map((x) => Math.min(...edges.map((edge) => Math.abs(edge - x))));
          });
          return [...looks, ...ends];
        }),
      );
      expect(off.length).toBeGreaterThan(8);
      // a bracket keeps 3 px clear of its bar line, and a pencil wavers; half a stave space is the tolerance for both
      for (const px of off) expect(px).toBeLessThan(STAVE_SPACE_PX / 2 + 0.8);
      expect(faults).toEqual([]);
    }
  });

  it.each(PIECES)('lets no two names of harmonies touch, and none leave the sheet (%s)', async (piece) => {
    for (const viewport of [SIZES.across, SIZES.phone]) {
      const { page } = await openPage(browser, { viewport });
      await page.goto(at(piece), { waitUntil: 'networkidle' });
      for (const choice of ['degrees', 'names']) {
        await page.click(`label[for="as-${choice}"]`);
        expect(await touching(page, choice === 'degrees' ? '.degrees' : '.chord-names'), choice).toEqual([]);
      }
    }
  });

  it('shows degrees or chord names, the plan following their rows, and remembers the choice', async () => {
    const { page } = await openPage(browser);
    await page.goto(at('rowing-home'));
    const shown = (kind: string): Promise<boolean> => page.locator(`.${kind} .harmony-name`).first().isVisible();
    expect([await shown('degrees'), await shown('chord-names')]).toEqual([true, false]);
    await page.click('label[for="as-names"]');
    expect([await shown('degrees'), await shown('chord-names')]).toEqual([false, true]);
    await page.reload();
    expect([await shown('degrees'), await shown('chord-names')]).toEqual([false, true]);
  });

  it('turns the line of the pedal under the notes that the plan names', async () => {
    const { page } = await openPage(browser);
    await page.goto(at('rowing-home'), { waitUntil: 'networkidle' });
    // composed so: marked pedal, a change on the first beat of every bar from 2 on, where the left hand strikes its bass
    const off = await page.evaluate(() =>
      [...document.querySelectorAll('.plan-change')].flatMap((entry) => {
        const [bar] = [entry.getAttribute('data-bar')];
        if (!entry.getAttribute('data-entry')!.endsWith('-0')) return [];
        const middle = (box: DOMRect): number => box.left + box.width / 2;
        const peak = middle(entry.querySelector('.plan-turn')!.getBoundingClientRect());
        const heads = [...document.querySelectorAll(`.engraved g.bar[data-bar="${bar ?? ''}"] g.note use[href^="#glyph-E0A"]`)].map((head) => middle(head.getBoundingClientRect()));
        return [Math.abs(Math.min(...heads) - peak)];
      }),
    );
    expect(off.length).toBeGreaterThan(20);
    for (const px of off) expect(px).toBeLessThan(STAVE_SPACE_PX / 2);
  });

  it('lights bars with their sentence, and sentences with their bar', async () => {
    const { page } = await openPage(browser);
    await page.goto(at('evening-over-skerrowby'), { waitUntil: 'networkidle' });
    const lit = (selector: string): Promise<(string | null)[]> => page.evaluate((of) => [...document.querySelectorAll(of)].map((one) => one.getAttribute('data-bar') ?? one.getAttribute('data-bars')), selector);
    await page.locator('[data-sentence]', { hasText: 'flattened supertonic' }).first().locator('a').first().focus();
    // composed in bar 17, which is the 18th with the upbeat: place 17
    expect(await lit('.under rect.lit')).toEqual(['17']);
    await page.locator('.bar-target[data-bar="17"]').focus();
    expect(await lit('.under rect.lit')).toEqual(['17']);
    expect((await lit('[data-sentence].lit')).length).toBeGreaterThan(0);
    await page.locator('.trips [data-sentence], .trips > li[data-sentence]').first().locator('a').first().focus();
    const first = await page.evaluate(() => [...document.querySelectorAll('.mark-look.lit')].every((mark) => (mark.getAttribute('data-notes') ?? '').split(' ').includes('pitfall-1')));
    expect(first).toBe(true);
    expect((await lit('.mark-look.lit')).length).toBeGreaterThan(0);
  });

  it('is walked with the keyboard', async () => {
    const { page } = await openPage(browser);
    await page.goto(at('rowing-home'), { waitUntil: 'networkidle' });
    const hash = (): Promise<string> => page.evaluate(() => window.location.hash);
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('Enter');
    expect(await hash()).toBe('#bar-1');
    expect(await page.locator('#bar-1 .known').isVisible()).toBe(true);
    await page.keyboard.press('ArrowRight');
    expect(await hash()).toBe('#bar-2');
    await page.keyboard.press('c');
    expect(await hash()).toBe('#bar-2');
    await page.keyboard.press('Escape');
    expect(await page.locator('#bar-2').isVisible()).toBe(false);
  });

  it('is read without script', async () => {
    const { page } = await openPage(browser, { javaScriptEnabled: false });
    await page.goto(at('rowing-home'));
    for (const heading of ['Before teaching it', 'What will trip a hand', 'Listen for']) expect(await page.getByRole('heading', { name: heading }).isVisible()).toBe(true);
    await page.click('label[for="as-names"]');
    expect(await page.locator('.chord-names .harmony-name').first().isVisible()).toBe(true);
    // a tap between note and pedal line opens the bar
    const target = (await page.locator('.bar-target[data-bar="2"] rect').boundingBox())!;
    await page.mouse.click(target.x + target.width / 2, target.y + target.height - 10);
    expect(await page.locator('#bar-2 .known').isVisible()).toBe(true);
    expect(await page.locator('#bar-2').textContent()).toContain('change the pedal');
  });

  it.each(['A4', 'Letter'] as const)('prints each demo piece on two sides at most (%s)', async (format) => {
    for (const viewport of [SIZES.across, SIZES.upright]) {
      const { page } = await openPage(browser, { viewport });
      for (const piece of PIECES) {
        await page.goto(at(piece), { waitUntil: 'networkidle' });
        const pdf = (await page.pdf({ format })).toString('latin1');
        // one object of type Page for each side (ISO 32000-1, 7.7.3.3)
        const sides = pdf.match(/\/Type\s*\/Page[^s]/g)?.length ?? 0;
        expect(sides, `${piece} at ${viewport.width}`).toBeGreaterThan(0);
        expect(sides, `${piece} at ${viewport.width}`).toBeLessThanOrEqual(2);
      }
    }
  });

  it('prints the notes alone on one side', async () => {
    const { page } = await openPage(browser);
    for (const piece of PIECES) {
      await page.goto(at(piece), { waitUntil: 'networkidle' });
      // the browser's own dialogue would wait for a hand
      await page.evaluate(() => { window.print = () => undefined; });
      await page.getByRole('button', { name: 'Print the notes alone' }).click();
      const pdf = (await page.pdf({ format: 'Letter' })).toString('latin1');
      expect(pdf.match(/\/Type\s*\/Page[^s]/g), piece).toHaveLength(1);
      await page.evaluate(() => window.dispatchEvent(new Event('afterprint')));
      expect(await page.evaluate(() => document.body.className)).toBe('');
    }
  });

  it.each(Object.entries(SIZES))('never scrolls sideways and cuts no name off (%s)', async (_, viewport) => {
    const { page } = await openPage(browser, { viewport });
    for (const piece of [...PIECES, 'evening-over-skerrowby#bar-17']) {
      await page.goto(at(piece), { waitUntil: 'networkidle' });
      expect(await page.evaluate(() => document.documentElement.scrollWidth), piece).toBeLessThanOrEqual(viewport.width);
      const beyond = await page.evaluate(() => [...document.querySelectorAll('.sheet svg.system text')].filter((text) => {
        // the drawing itself: around one that is out of sight its sheet is not laid out yet
        const [box, sheet] = [text.getBoundingClientRect(), text.closest('svg.system')!.getBoundingClientRect()];
        return box.width > 0 && (box.right > sheet.right + 1 || box.left < sheet.left - 1 || box.top < sheet.top - 1 || box.bottom > sheet.bottom + 1);
      }).map((text) => text.textContent));
      expect(beyond, piece).toEqual([]);
    }
  });

  it.each(['light', 'dark'] as const)('has no accessibility fault that axe calls serious (%s)', async (colorScheme) => {
    const { page } = await openPage(browser, { viewport: SIZES.across, colorScheme, bypassCSP: true });
    for (const piece of ['rowing-home', 'evening-over-skerrowby#bar-17', 'gull-chase']) {
      await page.goto(at(piece), { waitUntil: 'networkidle' });
      await page.evaluate(() => document.querySelectorAll('details').forEach((details) => { details.open = true; }));
      expect(await seriousFaults(page), piece).toEqual([]);
    }
  });
});

/** Pairs of shown names of one system whose boxes overlap by more than a pixel (boxes of text are taller than its ink). */
async function touching(page: Page, kind: string): Promise<readonly string[]> {
  return page.evaluate((of) =>
    [...document.querySelectorAll('.sheet')].flatMap((sheet) => {
      const names = [...sheet.querySelectorAll(`${of} .harmony-name`)].map((name) => ({ text: name.textContent, box: name.getBoundingClientRect() })).filter(({ box }) => box.width > 0);
      const right = sheet.getBoundingClientRect().right;
      const over = names.filter(({ box }) => box.right > right + 0.5).map(({ text }) => `${text} leaves the sheet`);
      // rows stand 20 px apart, a line of 18 px type is about 24 px high: of two rows only the ink counts, which ends 4 px inside
      const pairs = names.flatMap((one, i) => names.slice(i + 1).filter((other) => Math.min(one.box.right, other.box.right) - Math.max(one.box.left, other.box.left) > 1 && Math.min(one.box.bottom, other.box.bottom) - Math.max(one.box.top, other.box.top) > 12));
      return [...over, ...pairs.map(({ text }) => `${text} is covered`)];
    }), kind);
}
