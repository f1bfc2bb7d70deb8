import { createHash, randomUUID } from 'node:crypto';
import { closeSync, existsSync, fsyncSync, mkdirSync, openSync, readdirSync, readFileSync, renameSync, rmSync, statSync, writeSync } from 'node:fs';
import { join } from 'node:path';
import { InputError } from '../base/index.js';
import { keepPrivate, PRIVATE_FILE, PRIVATE_FOLDER } from './privacy.js';

/**
 * Where the files that came in are kept, untouched, each under the hash of its content (64 hex
 * digits).
 */
export interface FileKeeper {
  /**
   * Keeps the bytes; when it returns they are on the disk. The same bytes twice are kept once.
   * @returns the file's id
   */
  keep(bytes: Uint8Array): string;
  /**
   * @throws InputError code `not-found` where the file has gone from the folder
   */
  read(id: string): Uint8Array;
  has(id: string): boolean;
  /** Deletes a file for good. */
  forget(id: string): void;
}

/** A file id: the SHA-256 of the content in hex. */
const FILE_ID = /^[0-9a-f]{64}$/;

/** A file that was being written when the program or the machine stopped: id, a number of its own, "part". */
const UNFINISHED = /^[0-9a-f]{64}\.[0-9a-f-]{36}\.part$/;

/** Age from which (>) an unfinished file counts as left over, ms: the largest takes seconds to write, even on a slow stick. */
const LEFT_OVER_MS = 60 * 60_000;

/**
 * Keeps files in one folder, made where it is missing. What a crash has left there half written is cleared away.
 * @param now the present moment
 */
export function keepFilesIn(folder: string, now: Date): FileKeeper {
  mkdirSync(folder, { recursive: true, mode: PRIVATE_FOLDER });
  keepPrivate(folder, PRIVATE_FOLDER);
  clearLeftovers(folder, now);
  return {
    keep: (bytes) => {
      const id = createHash('sha256').update(bytes).digest('hex');
      if (!existsSync(join(folder, id))) writeSafely(folder, id, bytes);
      return id;
    },
    read: (id) => {
      if (!FILE_ID.test(id)) throw new RangeError('not a file id');
      if (!existsSync(join(folder, id))) throw new InputError('not-found', 'The original file is no longer in the data folder.');
      return readFileSync(join(folder, id));
    },
    has: (id) => FILE_ID.test(id) && existsSync(join(folder, id)),
    forget: (id) => {
      if (!FILE_ID.test(id)) throw new RangeError('not a file id');
      rmSync(join(folder, id), { force: true });
      flushFolder(folder);
    },
  };
}

/** Takes half-written files away, but none that another room may be writing just now. */
function clearLeftovers(folder: string, now: Date): void {
  for (const name of readdirSync(folder).filter((each) => UNFINISHED.test(each))) {
    const written = statSync(join(folder, name), { throwIfNoEntry: false });
    if (written !== undefined && now.getTime() - written.mtimeMs > LEFT_OVER_MS) rmSync(join(folder, name), { force: true });
  }
}

/** Written under another name, flushed, then renamed: a crash leaves the whole file or none. */
function writeSafely(folder: string, id: string, bytes: Uint8Array): void {
  const unfinished = join(folder, `${id}.${randomUUID()}.part`);
  try {
    writeAndFlush(unfinished, bytes);
    renameSync(unfinished, join(folder, id));
  } finally {
    rmSync(unfinished, { force: true });
  }
  flushFolder(folder);
}

/** All bytes to a new file, and to the disk. */
function writeAndFlush(path: string, bytes: Uint8Array): void {
  const file = openSync(path, 'wx', PRIVATE_FILE);
  try {
    let done = 0;
    while (done < bytes.length) done += writeSync(file, bytes, done);
    fsyncSync(file);
  } finally {
    closeSync(file);
  }
}

/** Makes the rename itself durable. Windows cannot open folders and needs no such call. */
function flushFolder(folder: string): void {
  if (process.platform === 'win32') return;
  const handle = openSync(folder, 'r');
  try {
    fsyncSync(handle);
  } finally {
    closeSync(handle);
  }
}
