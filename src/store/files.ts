import { createHash, randomUUID } from 'node:crypto';
import { closeSync, existsSync, fsyncSync, mkdirSync, openSync, readFileSync, renameSync, rmSync, writeSync } from 'node:fs';
import { join } from 'node:path';
import { InputError } from '../base/index.js';

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
}

/** Only the owner of the machine's account reads what pupils sent. */
const PRIVATE_FOLDER = 0o700;
const PRIVATE_FILE = 0o600;

/** A file id: the SHA-256 of the content in hex. */
const FILE_ID = /^[0-9a-f]{64}$/;

/** Keeps files in one folder, made where it is missing. */
export function keepFilesIn(folder: string): FileKeeper {
  mkdirSync(folder, { recursive: true, mode: PRIVATE_FOLDER });
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
  };
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
