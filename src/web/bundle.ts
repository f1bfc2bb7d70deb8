import { copyFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

/**
 * Bundles scripts, styles and fonts for the browser into `dist/browser`. Run after the compiler:
 * `node dist/web/bundle.js`. Everything is served from there; nothing is loaded from elsewhere.
 */
const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const SOURCE = join(ROOT, 'src', 'browser');
const TARGET = join(ROOT, 'dist', 'browser');

/** Oldest browsers that read the pages with script; without it any will do. */
const BROWSERS = ['chrome110', 'firefox115', 'safari16'];

rmSync(TARGET, { recursive: true, force: true });
await build({
  absWorkingDir: ROOT,
  entryPoints: { main: join(SOURCE, 'main.ts') },
  outdir: TARGET,
  bundle: true,
  format: 'esm',
  splitting: true,
  minify: true,
  sourcemap: false,
  target: BROWSERS,
  logLevel: 'warning',
});
await build({
  absWorkingDir: ROOT,
  entryPoints: { main: join(SOURCE, 'styles', 'main.css') },
  outdir: TARGET,
  bundle: true,
  minify: true,
  loader: { '.woff2': 'file' },
  assetNames: '[name]',
  target: BROWSERS,
  logLevel: 'warning',
});
for (const paper of ['a4.css', 'letter.css']) copyFileSync(join(SOURCE, 'styles', paper), join(TARGET, paper));
copyFileSync(join(SOURCE, 'icon.svg'), join(TARGET, 'icon.svg'));
