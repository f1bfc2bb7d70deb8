import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe } from 'vitest';
import { startRoom, type OpenRoom, type RoomOptions } from '../../src/web/index.js';
import { NO_BROWSER, openBrowser } from './browser.js';

/** What the tests of one file share. */
export interface InRoom {
  readonly browser: Browser;
  /** Address of a page: "http://127.0.0.1:40123/pupils/…". */
  readonly at: (path?: string) => string;
  /** The data folder. */
  readonly data: string;
}

/** How the room is opened. */
export interface InRoomOptions extends Pick<RoomOptions, 'demo' | 'pipeline'> {
  /** Puts something into the folder before the room opens. */
  readonly furnish?: (data: string) => void;
}

/** Tests in one browser and one room, both closed after the last; left out where there is no browser. */
export async function describeInRoom(name: string, options: InRoomOptions, tests: (parts: InRoom) => void): Promise<void> {
  const browser = await openBrowser();
  if (browser === null) console.warn(NO_BROWSER);
  const data = mkdtempSync(join(tmpdir(), 'barwise-browser-'));
  describe.skipIf(browser === null)(name, () => {
    const opened: { room?: OpenRoom } = {};
    beforeAll(async () => {
      options.furnish?.(data);
      opened.room = await startRoom({ port: 0, data, ...(options.demo === undefined ? {} : { demo: options.demo }), ...(options.pipeline === undefined ? {} : { pipeline: options.pipeline }) });
    });
    afterAll(async () => {
      await browser?.close();
      await opened.room?.close();
      rmSync(data, { recursive: true, force: true });
    });
    if (browser !== null) tests({ browser, data, at: (path = '') => `${opened.room?.address ?? ''}${path}` });
  });
}
