/**
 * The open-data scorers of harmony and reviews against the floors. Runs where BARWISE_SCORERS names their folder and BARWISE_CORPUS
 * the data; `.ci/run` sets both where they stand beside the checkout. Reviews are asked on a part of the data that is done in two minutes.
 */
import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';

interface Floors {
  readonly harmony: { readonly folder: string; readonly change: number; readonly root: number; readonly cadences: number; readonly phrases: number };
  readonly planted: { readonly from: readonly string[]; readonly only: string; readonly mean: number; readonly eachKind: number; readonly quiet: number; readonly pedalMore: number };
  readonly progress: { readonly every: number; readonly named: number; readonly inventedShare: number };
  readonly remarks: { readonly folder: string; readonly concern: number; readonly lead: number };
}

const scorers = process.env['BARWISE_SCORERS'] ?? '';
const corpus = process.env['BARWISE_CORPUS'] ?? '';
const floors = JSON.parse(readFileSync(new URL('./floors.json', import.meta.url), 'utf8')) as Floors;
const scratch = mkdtempSync(join(tmpdir(), 'barwise-floors-'));
afterAll(() => rmSync(scratch, { recursive: true, force: true }));

/** What a scorer prints; nothing on standard error is allowed. */
function scored(name: string, args: readonly string[]): string {
  const run = spawnSync('node', [join(scorers, name), ...args], { encoding: 'utf8' });
  expect(run.stderr).toBe('');
  console.log(run.stdout.trim());
  return run.stdout;
}

/** The numbers of the first match. */
function numbersIn(text: string, pattern: RegExp): readonly number[] {
  return (pattern.exec(text) ?? []).slice(1).map(Number);
}

/** An aspect with fewer pairs than this says nothing. */
const LEAST_PAIRS = 20;

describe.skipIf(scorers === '' || corpus === '')('reviews against the floors (left out without BARWISE_SCORERS and BARWISE_CORPUS)', () => {
  test('harmony of annotated movements', { timeout: 120_000 }, () => {
    const { folder, change, root, cadences, phrases } = floors.harmony;
    const text = scored('harmony.mjs', [join(corpus, folder)]);
    const found = numbersIn(text, /change F1 ([\d.]+), root right ([\d.]+) .*first key right (\d+) of (\d+), cadences F1 ([\d.]+), phrase ends F1 ([\d.]+)/);
    const [foundChange = 0, foundRoot = 0, keys = 0, movements = -1, foundCadences = 0, foundPhrases = 0] = found;
    expect(foundChange).toBeGreaterThanOrEqual(change);
    expect(foundRoot).toBeGreaterThanOrEqual(root);
    expect(keys).toBe(movements);
    expect(foundCadences).toBeGreaterThanOrEqual(cadences);
    expect(foundPhrases).toBeGreaterThanOrEqual(phrases);
  });

  test('planted faults are found and professionals left in peace', { timeout: 600_000 }, () => {
    const { from, only, mean, eachKind, quiet, pedalMore } = floors.planted;
    execFileSync('node', [join(scorers, 'plant.mjs'), '--only', only, scratch, ...from.map((name) => join(corpus, name))]);
    const text = scored('planted.mjs', [scratch]);
    const kinds = [...text.matchAll(/^([\w-]+) +\d+ planted, found (\d+) %/gm)].map(([, kind = '', share = '']) => [kind, Number(share)] as const);
    expect(kinds.length).toBeGreaterThan(8);
    for (const [kind, share] of kinds) expect([kind, share >= eachKind]).toEqual([kind, true]);
    expect(kinds.reduce((sum, [, share]) => sum + share, 0) / kinds.length).toBeGreaterThanOrEqual(mean);
    const [rate = Infinity] = numbersIn(text, /quiet: ([\d.]+)/);
    expect(rate).toBeLessThanOrEqual(quiet);
    const [more = Infinity, presses = 0] = numbersIn(text, /draws (\d+) more in (\d+) presses/);
    expect(more).toBeLessThanOrEqual((pedalMore / 100) * presses);
  });

  test('planted changes between two recordings are told, and none of a player who only played again', { timeout: 600_000 }, () => {
    const { every, named, inventedShare } = floors.progress;
    const text = scored('progress.mjs', ['--every', String(every), scratch]);
    const shares = [...text.matchAll(/^(?:better|worse): .*\((\d+) %\)$/gm)].map(([, share]) => Number(share));
    expect(shares).toHaveLength(2);
    for (const share of shares) expect(share).toBeGreaterThanOrEqual(named);
    const [invented = Infinity, pairs = 0] = numbersIn(text, /same player twice: (\d+) changes invented in (\d+)/);
    expect(pairs).toBeGreaterThan(0);
    expect(invented).toBeLessThanOrEqual(inventedShare * pairs);
  });

  test('agreement with four instructors', { timeout: 300_000 }, () => {
    const { folder, concern, lead } = floors.remarks;
    const text = scored('remarks.mjs', [join(corpus, folder)]);
    const aspects = [...text.matchAll(/^(\w+) +([\d.]+) +([\d.]+) +(\d+)$/gm)].map(([, , ours, theirs, pairs]) => [Number(ours), Number(theirs), Number(pairs)] as const);
    const told = aspects.filter(([, , pairs]) => pairs >= LEAST_PAIRS);
    expect(told.length).toBeGreaterThan(3);
    const mean = (place: 0 | 1): number => told.reduce((sum, one) => sum + one[place], 0) / told.length;
    expect(mean(0) - mean(1)).toBeGreaterThanOrEqual(lead);
    const [found = 0] = numbersIn(text, /concern against mean rating (-?[\d.]+)/);
    expect(found).toBeLessThanOrEqual(concern);
  });
});
