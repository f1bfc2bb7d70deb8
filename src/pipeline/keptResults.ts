/**
 * Results on the disk, so that a piece that was engraved or analysed once is shown at once next week too. Everything here
 * can be made again: a file that is damaged, of another version of the program or too much is thrown away.
 */
import { createHash, randomUUID } from 'node:crypto';
import { mkdirSync, readdirSync, rmSync, statSync } from 'node:fs';
import { readFile, rename, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { deserialize, serialize } from 'node:v8';

/** Results of one version of the program in one folder. */
export interface KeptResults {
  /** The kept result; undefined where there is none that can be used. */
  read(name: ResultName): Promise<unknown>;
  /** Keeps a result; a disk that does not take it costs only time next week. */
  write(name: ResultName, value: unknown): Promise<void>;
  /** Throws away everything that was made from some files, by their SHA-256. */
  forget(files: readonly string[]): Promise<void>;
}

/** What a result is known by. */
export interface ResultName {
  readonly kind: string;
  /** SHA-256 of the files that it was made from. */
  readonly files: readonly string[];
  /** Everything that it depends on. */
  readonly key: string;
}

/** Most bytes kept (<=): a few hundred scores with their recordings. The longest unused go first, at the next start. */
const MOST_BYTES = 1024 * 1024 * 1024;

/** Letters of a file's SHA-256 in the name of a result: enough to tell all files of a room apart. */
const HASH_IN_NAME = 24;

/** SHA-256 of what follows it, bytes. */
const CHECKSUM_BYTES = 32;

/** Only the owner of the account may look: what is kept was found out from pupils' recordings. */
const PRIVATE_FOLDER = 0o700;
const PRIVATE_FILE = 0o600;

/** Keeps results of one version in a folder; those of other versions go. Nothing is kept where the folder cannot be made. */
export function keepResultsIn(folder: string, version: string): KeptResults {
  const own = join(folder, version);
  try {
    mkdirSync(own, { recursive: true, mode: PRIVATE_FOLDER });
    for (const other of readdirSync(folder)) if (other !== version) rmSync(join(folder, other), { recursive: true, force: true });
    makeRoom(own);
  } catch {
    return NOTHING_KEPT;
  }
  const beingWritten = new Set<Promise<void>>();
  return {
    read: (name) => readResult(join(own, fileName(name))),
    write: (name, value) => {
      const writing = writeResult(join(own, fileName(name)), value).finally(() => beingWritten.delete(writing));
      beingWritten.add(writing);
      return writing;
    },
    forget: async (files) => {
      await Promise.all(beingWritten);
      const marks = files.map((file) => file.slice(0, HASH_IN_NAME));
      for (const name of readdirSync(own)) if (marks.some((mark) => name.includes(mark))) await rm(join(own, name), { force: true });
    },
  };
}

/** Where results are not kept at all. */
export const NOTHING_KEPT: KeptResults = { read: () => Promise.resolve(undefined), write: () => Promise.resolve(), forget: () => Promise.resolve() };

/** Kind, files and the rest of what a result depends on. */
function fileName({ kind, files, key }: ResultName): string {
  const rest = createHash('sha256').update(key).digest('hex').slice(0, HASH_IN_NAME);
  return [kind, ...files.map((file) => file.slice(0, HASH_IN_NAME)), rest].join('.');
}

/** A result, its checksum being right. */
async function readResult(path: string): Promise<unknown> {
  try {
    const bytes = await readFile(path);
    const content = bytes.subarray(CHECKSUM_BYTES);
    if (createHash('sha256').update(content).digest().equals(bytes.subarray(0, CHECKSUM_BYTES))) return deserialize(content);
  } catch {
    // not there, or not readable: made again
  }
  return undefined;
}

/** Written under another name, then renamed: a crash leaves the whole result or none. */
async function writeResult(path: string, value: unknown): Promise<void> {
  const unfinished = `${path}.${randomUUID()}.part`;
  try {
    const content = serialize(value);
    await writeFile(unfinished, Buffer.concat([createHash('sha256').update(content).digest(), content]), { mode: PRIVATE_FILE });
    await rename(unfinished, path);
  } catch {
    await rm(unfinished, { force: true }).catch(() => undefined);
  }
}

/** Takes the longest unused away until the rest fits; half-written ones always. */
function makeRoom(folder: string): void {
  const kept = readdirSync(folder).map((name) => ({ path: join(folder, name), ...sizeAndAge(join(folder, name)) }));
  let bytes = 0;
  for (const { path, size } of kept.sort((a, b) => b.usedMs - a.usedMs)) {
    bytes += size;
    if (bytes > MOST_BYTES || path.endsWith('.part')) rmSync(path, { force: true });
  }
}

/** Size in bytes, and when it was last read or written. */
function sizeAndAge(path: string): { readonly size: number; readonly usedMs: number } {
  const { size, mtimeMs, atimeMs } = statSync(path);
  return { size, usedMs: Math.max(mtimeMs, atimeMs) };
}
