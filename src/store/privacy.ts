/** What pupils sent and what was written of it is for the owner of the machine's account alone. */
import { chmodSync, closeSync, openSync } from 'node:fs';

/** Rights of a folder that only its owner may look into. */
export const PRIVATE_FOLDER = 0o700;

/** Rights of a file that only its owner may read. */
export const PRIVATE_FILE = 0o600;

/**
 * Takes everybody else's rights off something that is there. A drive that knows no owners, or a folder that belongs to
 * another account, stays as it is: whoever set that up decided about it.
 */
export function keepPrivate(path: string, mode: number): void {
  try {
    chmodSync(path, mode);
  } catch {
    // not ours to change
  }
}

/** Makes a file that is missing, so that it is private from its first byte on, and an older one private. */
export function privateFile(path: string): void {
  closeSync(openSync(path, 'a', PRIVATE_FILE));
  keepPrivate(path, PRIVATE_FILE);
}
