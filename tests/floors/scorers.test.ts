/**
 * The open-data scorers against the floors. Runs where BARWISE_SCORERS names their folder and BARWISE_CORPUS the data;
 * `.ci/run` sets both where they stand beside the checkout. The floors stand in floors.json and only rise.
 */
import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';

interface AlignmentFloor {
  readonly name: string;
  /** Folder of the corpus, or `homework` for home recordings made from the folders in `from`. */
  readonly folder: string;
  readonly from?: readonly string[];
  readonly only?: string;
  readonly mean: number;
  readonly lowest: number;
  readonly returns?: number;
}

const scorers = process.env['BARWISE_SCORERS'];
const corpus = process.env['BARWISE_CORPUS'];
const floors = (JSON.parse(readFileSync(new URL('./floors.json', import.meta.url), 'utf8')) as { alignment: AlignmentFloor[] }).alignment;
const scratch = mkdtempSync(join(tmpdir(), 'barwise-floors-'));
afterAll(() => rmSync(scratch, { recursive: true, force: true }));

function folderOf(floor: AlignmentFloor, evalFolder: string, corpusFolder: string): string {
  if (floor.folder !== 'homework') return join(corpusFolder, floor.folder);
  const made = join(scratch, (floor.from ?? []).join('-'));
  execFileSync('node', [join(evalFolder, 'homework.mjs'), made, ...(floor.from ?? []).map((name) => join(corpusFolder, name))]);
  return made;
}

describe.skipIf(!scorers || !corpus)('scorers against the floors (left out without BARWISE_SCORERS and BARWISE_CORPUS)', () => {
  test.each(floors)('$name', { timeout: 400_000 }, (floor) => {
    const folder = folderOf(floor, scorers ?? '', corpus ?? '');
    const only = floor.only === undefined ? [] : ['--only', floor.only];
    const run = spawnSync('node', [join(scorers ?? '', 'alignment.mjs'), ...only, folder], { encoding: 'utf8' });
    expect(run.stderr).toBe('');
    const found = /F1 mean ([\d.]+), 10th centile [\d.]+, lowest ([\d.]+), returns F1 ([\d.]+)/.exec(run.stdout);
    const [mean = 0, lowest = 0, returns = 0] = (found ?? []).slice(1).map(Number);
    console.log(run.stdout.trim());
    expect(mean).toBeGreaterThanOrEqual(floor.mean);
    expect(lowest).toBeGreaterThanOrEqual(floor.lowest);
    expect(returns).toBeGreaterThanOrEqual(floor.returns ?? 0);
  });
});
