import type { Browser, BrowserContextOptions, Page } from 'playwright-core';
import { onTestFinished } from 'vitest';
import { startRoom, type OpenRoom } from '../../src/web/index.js';

/** Sizes that every page must fit: tablet upright and across, phone, desk. */
export const SIZES = {
  upright: { width: 768, height: 1024 },
  across: { width: 1024, height: 768 },
  phone: { width: 390, height: 844 },
  desk: { width: 1440, height: 900 },
} as const;

/** How long a page is waited for, ms: a busy machine engraves for the first time in half a minute; only a fault lasts longer. */
const PATIENCE_MS = 55_000;

/** The demo room's recording that goes back twice. */
export const REVIEW = 'pupils/mei-castellow/recordings/3';

/** Opens the room on a free port. */
export function openRoom(data: string): Promise<OpenRoom> {
  return startRoom({ port: 0, data });
}

/** A page of its own; any error in the page's script or breach of the security policy fails the test. */
export async function openPage(browser: Browser, options: BrowserContextOptions = {}): Promise<{ page: Page; faults: string[] }> {
  const context = await browser.newContext({ viewport: SIZES.across, ...options });
  context.setDefaultTimeout(PATIENCE_MS);
  const page = await context.newPage();
  const faults: string[] = [];
  page.on('pageerror', (error) => faults.push(error.message));
  page.on('console', (message) => {
    if (message.type() === 'error') faults.push(message.text());
  });
  onTestFinished(() => context.close());
  return { page, faults };
}
