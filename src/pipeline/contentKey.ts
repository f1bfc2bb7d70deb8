import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

/** What decides a result: everything between the two files and the page. */
const STAGES = ['base', 'score', 'recording', 'align', 'harmony', 'analysis', 'measure', 'judge', 'review', 'engrave', 'pipeline'] as const;

/**
 * Version of the program: its number, and what its stages really are, so that a result made by other code is never
 * taken for one of this code. Results of another version are other results.
 */
export function programVersion(): string {
  const found: unknown = JSON.parse(readFileSync(new URL('../../package.json', import.meta.url), 'utf8'));
  const number = typeof found === 'object' && found !== null && 'version' in found ? String(found.version) : 'unknown';
  const code = createHash('sha256');
  for (const stage of STAGES) for (const file of programFiles(fileURLToPath(new URL(`../${stage}`, import.meta.url)))) code.update(readFileSync(file));
  return `${number}+${code.digest('hex').slice(0, 16)}`;
}

/** Program files of a folder and those in it, in a fixed order. */
function programFiles(folder: string): readonly string[] {
  return readdirSync(folder, { withFileTypes: true, recursive: true })
    .filter((entry) => entry.isFile() && /\.[jt]s$/.test(entry.name))
    .map((entry) => join(entry.parentPath, entry.name))
    .sort();
}

/** SHA-256 of the bytes, hexadecimal: the same content is the same file, whatever its name. */
export function contentHash(bytes: Uint8Array): string {
  return createHash('sha256').update(bytes).digest('hex');
}
