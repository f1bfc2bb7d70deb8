import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { keepResultsIn } from '../../src/pipeline/keptResults.js';
import { ownFolder } from '../store/folder.js';

const [SCORE, TAKE] = ['a'.repeat(64), 'b'.repeat(64)];
const name = { kind: 'reading', files: [SCORE, TAKE], key: 'one' };
const value = { notes: new Float64Array([0.5, 1]), bars: new Map([['1', { wrong: 2 }]]) };

describe('results on the disk', () => {
  it('come back as they were at the next start', async () => {
    const folder = ownFolder();
    await keepResultsIn(folder, '1').write(name, value);
    expect(await keepResultsIn(folder, '1').read(name)).toEqual(value);
  });

  it.each([
    ['another kind', { ...name, kind: 'score' }],
    ['another file', { ...name, files: [SCORE] }],
    ['another key', { ...name, key: 'two' }],
  ])('are not taken for those of %s', async (_, other) => {
    const kept = keepResultsIn(ownFolder(), '1');
    await kept.write(name, value);
    expect(await kept.read(other)).toBeUndefined();
  });

  it('of another version of the program go', async () => {
    const folder = ownFolder();
    await keepResultsIn(folder, '1').write(name, value);
    expect(await keepResultsIn(folder, '2').read(name)).toBeUndefined();
    expect(readdirSync(folder)).toEqual(['2']);
  });

  it.each([
    ['cut', (bytes: Buffer) => bytes.subarray(0, -1)],
    ['emptied', () => Buffer.alloc(0)],
    ['changed by one bit', (bytes: Buffer) => Buffer.concat([bytes.subarray(0, -1), Buffer.from([(bytes.at(-1) ?? 0) ^ 1])])],
  ])('are made again where their file was %s', async (_, damage) => {
    const folder = ownFolder();
    const kept = keepResultsIn(folder, '1');
    await kept.write(name, value);
    const [file = ''] = readdirSync(join(folder, '1'));
    const path = join(folder, '1', file);
    writeFileSync(path, damage(readFileSync(path)));
    expect(await kept.read(name)).toBeUndefined();
  });

  it('that were made from a file go with it, the others stay', async () => {
    const kept = keepResultsIn(ownFolder(), '1');
    const ofScore = { kind: 'score', files: [SCORE], key: 'one' };
    await kept.write(name, value);
    await kept.write(ofScore, 'score');
    await kept.forget([TAKE]);
    expect([await kept.read(name), await kept.read(ofScore)]).toEqual([undefined, 'score']);
  });

  it('are not kept where the folder cannot be made, which is no fault', async () => {
    const folder = ownFolder();
    writeFileSync(join(folder, 'cache'), '');
    const kept = keepResultsIn(join(folder, 'cache'), '1');
    await kept.write(name, value);
    expect(await kept.read(name)).toBeUndefined();
  });
});
