/** Writes the made files of the demo room: `npm run demo`. */
import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { demoFiles } from './files.js';

const folder = fileURLToPath(new URL('../../sample-recordings/', import.meta.url));

for (const { path, bytes } of demoFiles()) {
  const file = join(folder, path);
  mkdirSync(dirname(file), { recursive: true });
  writeFileSync(file, bytes);
}
