/**
 * Opens and closes the room: the only place that knows ports, the machine's folders and the order in which
 * things start and stop.
 */
import type { Server } from 'node:http';
import { createServer } from 'node:http';
import { homedir } from 'node:os';
import { join } from 'node:path';
import type { Pipeline } from '../pipeline/index.js';
import { createPipeline } from '../pipeline/index.js';
import { dataFolder, openStore, type Store } from '../store/index.js';
import { createApp } from './app.js';
import { listenFrom, LOOPBACK } from './listen.js';
import { doorFor } from './openDoor.js';
import { inHeader, reachableAddresses } from './ownNames.js';
import { seedDemo } from './seedDemo.js';
import { scoreFile } from './shared.js';
import { USUAL_WIDTH_PX } from './width.js';

/** How to open the room. */
export interface RoomOptions {
  /** First port to try. */
  readonly port?: number;
  /** Data folder; see `dataFolder` for what holds where it is left out. */
  readonly data?: string;
  /** Takes one line for the log (standard error on the command line). */
  readonly log?: (line: string) => void;
  /** The pipeline to use; a new one where left out. */
  readonly pipeline?: Pipeline;
  /** False keeps an empty folder empty. */
  readonly demo?: boolean;
  /** Address to listen on; this computer's own where left out. Any other needs a passphrase, kept already or given here. */
  readonly host?: string;
  /** The passphrase for other devices; takes the place of the one that is kept. */
  readonly passphrase?: string;
}

/** A room that is open. */
export interface OpenRoom {
  /** "http://127.0.0.1:4711/". */
  readonly address: string;
  /** Addresses for other devices; empty where only this computer reaches the room. */
  readonly elsewhere: readonly string[];
  readonly port: number;
  readonly data: string;
  /** Stops listening, ends the workers and closes the database. */
  close(): Promise<void>;
}

/** The room's own port. */
export const ROOM_PORT = 4711;

/**
 * Longest time for one form to come in, ms: a large recording from the same machine takes
 * seconds.
 */
const REQUEST_TIMEOUT_MS = 120_000;

/**
 * Opens the room: store, pipeline, demo material in an empty folder, and a server, on the loopback address where nothing else is said.
 * @throws InputError where the data folder cannot be used, no port is to be had, or the room should be open to others without a passphrase
 */
export async function startRoom(options: RoomOptions = {}): Promise<OpenRoom> {
  const data = dataFolder({ option: options.data, env: process.env, platform: process.platform, home: homedir() });
  const store = openStore(data);
  const host = options.host ?? LOOPBACK;
  const door = await doorFor(store, host, options.passphrase).catch((error: unknown) => {
    store.close();
    throw error;
  });
  const pipeline = options.pipeline ?? createPipeline({ folder: join(data, 'cache') });
  const log = options.log ?? (() => undefined);
  const app = createApp({ store, pipeline, log, ...(door === null ? {} : { door }) });
  let openDoors = (): void => undefined;
  const doors = new Promise<void>((resolve) => (openDoors = resolve));
  // a port is found before the demo room is put in, which takes its time; whoever knocks meanwhile waits
  const server = createServer({ requestTimeout: REQUEST_TIMEOUT_MS }, (request, response) => void doors.then(() => void app(request, response)));
  const close = async (): Promise<void> => {
    await closeServer(server);
    await pipeline.close();
    store.close();
  };
  const port = await listenFrom(server, options.port ?? ROOM_PORT, host).catch(async (error: unknown) => {
    await close();
    throw error;
  });
  if (options.demo !== false) furnish(store, log);
  openDoors();
  void warmUp({ store, pipeline });
  // a room on one address of the network alone is not at the loopback address, either
  const here = door === null || reachableAddresses(host)[0] !== host ? LOOPBACK : host;
  const elsewhere = door === null ? [] : reachableAddresses(host).map((one) => `http://${inHeader(one)}:${port}/`);
  return { address: `http://${inHeader(here)}:${port}/`, elsewhere, port, data, close };
}

/** Puts the demo room in; a fault there must not keep the teacher out of her own room. */
function furnish(store: Store, log: (line: string) => void): void {
  try {
    seedDemo({ store });
  } catch (error) {
    log(`the demo room could not be put in whole: ${error instanceof Error ? error.message : 'unknown fault'}`);
  }
}

/**
 * Engraves the newest recording's score in the background, so that the first review does not wait
 * for the engraver to load.
 */
async function warmUp({ store, pipeline }: { readonly store: Store; readonly pipeline: Pipeline }): Promise<void> {
  const newest = store.recordings()[0];
  if (newest === undefined) return;
  try {
    await pipeline.engraving(scoreFile(store, store.score(newest.scoreId)), USUAL_WIDTH_PX);
  } catch {
    // a file that is gone or cannot be read is told on its own page
  }
}

/** Ends all connections, then the server. */
async function closeServer(server: Server): Promise<void> {
  server.closeAllConnections();
  await new Promise<void>((resolve) => server.close(() => resolve()));
}
