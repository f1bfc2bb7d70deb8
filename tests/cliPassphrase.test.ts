/** `barwise passphrase` as a person or another program runs it. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, expect, it } from 'vitest';
import { openStore } from '../src/store/index.js';
import { isPassphrase } from '../src/web/passphrase.js';

const CLI = fileURLToPath(new URL('../dist/cli.js', import.meta.url));
const data = mkdtempSync(join(tmpdir(), 'barwise-passphrase-'));
afterAll(() => rmSync(data, { recursive: true, force: true }));

function run(input: string, ...args: readonly string[]): { readonly code: number | null; readonly out: string; readonly err: string } {
  const { status, stdout, stderr } = spawnSync(process.execPath, [CLI, 'passphrase', '--data', data, ...args], { input, encoding: 'utf8', timeout: 30_000 });
  return { code: status, out: stdout, err: stderr };
}

/** What is kept. */
function kept(): string | null {
  const store = openStore(data);
  try {
    return store.setting('passphrase');
  } finally {
    store.close();
  }
}

it('keeps a hash and never says what it was', async () => {
  const { code, out, err } = run('four harbour lanterns swing\n');
  expect(code).toBe(0);
  expect(out + err).not.toContain('lanterns');
  expect(await isPassphrase('four harbour lanterns swing', kept()!)).toBe(true);
});

it('takes it back', () => {
  expect(run('', '--remove').code).toBe(0);
  expect(kept()).toBeNull();
});

it('refuses one that is short, and one on the command line', () => {
  expect(run('short\n')).toMatchObject({ code: 3, err: expect.stringContaining('12 characters') as string });
  expect(run('', 'four harbour lanterns swing').code).toBe(2);
  expect(kept()).toBeNull();
});
