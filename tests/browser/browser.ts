import { existsSync } from 'node:fs';
import chromium from '@sparticuz/chromium';
import { chromium as driver, type Browser } from 'playwright-core';

/** Where a browser is usually installed, in the order tried. */
const INSTALLED = [
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
  '/usr/bin/google-chrome-stable',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe',
  'C:\\Program Files (x86)\\Microsoft\\Edge\\Application\\msedge.exe',
];

/**
 * The packaged browser brings arguments of its own that switch web security off and share one process among all pages;
 * the tests want neither.
 */
const PLAIN = ['--no-sandbox', '--disable-gpu'] as const;

/**
 * A headless browser for the tests: the one named by BARWISE_BROWSER, else the packaged Chromium (64-bit Linux), else
 * an installed one. Null where there is none; the tests then say so and are left out.
 */
export async function openBrowser(): Promise<Browser | null> {
  const named = process.env['BARWISE_BROWSER'];
  if (named !== undefined && named !== '') return driver.launch({ executablePath: named });
  return (await openPackaged()) ?? (await openInstalled());
}

/** Said once where no browser is found. */
export const NO_BROWSER = 'no browser found: the browser tests are left out (set BARWISE_BROWSER to the path of a Chromium)';

async function openPackaged(): Promise<Browser | null> {
  if (process.platform !== 'linux' || process.arch !== 'x64') return null;
  try {
    return await driver.launch({ executablePath: await chromium.executablePath(), args: [...PLAIN], headless: true });
  } catch {
    return null;
  }
}

async function openInstalled(): Promise<Browser | null> {
  const path = INSTALLED.find((candidate) => existsSync(candidate));
  return path === undefined ? null : driver.launch({ executablePath: path });
}
