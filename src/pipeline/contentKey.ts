import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';

/** Version of the program: results of another version are other results. */
export function programVersion(): string {
  const found: unknown = JSON.parse(readFileSync(new URL('../../package.json', import.meta.url), 'utf8'));
  return typeof found === 'object' && found !== null && 'version' in found ? String(found.version) : 'unknown';
}

/** SHA-256 of the bytes, hexadecimal: the same content is the same file, whatever its name. */
export function contentHash(bytes: Uint8Array): string {
  return createHash('sha256').update(bytes).digest('hex');
}
