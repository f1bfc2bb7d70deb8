/**
 * The key of the whole, found from the notes, against what titles and catalogues name: on real scores where BARWISE_CORPUS names
 * the folder of the data; nothing of it stands here. Witness: the titles in the files, and below them the keys by which works are catalogued.
 */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { analyseHarmony } from '../../src/harmony/index.js';
import { readScore, type Score } from '../../src/score/index.js';

const folder = join(process.env['BARWISE_CORPUS'] ?? '', 'concert');
const there = process.env['BARWISE_CORPUS'] !== undefined && existsSync(folder);
if (!there) console.log('keys of concert scores are left out: BARWISE_CORPUS names no folder with `concert` in it');

/** Keys of movements whose files have no telling title, as every catalogue of works has them. */
const CATALOGUED: Readonly<Record<string, string>> = {
  bwv_856: 'F major', bwv_866: 'Bb major', bwv_858: 'F# major', bwv_868: 'B major', 'Sonatas_15-4': 'D major', 'Sonatas_18-2': 'Ab major',
  'Sonatas_21-3': 'C major', 'Sonatas_26-3': 'Eb major', 'Sonatas_31-1': 'Ab major', 'Sonatas_7-4': 'D major', op_10_4: 'C# minor', op_25_2: 'F minor',
  Sonata_2_2nd: 'Eb minor', 'Sonatas_32-1': 'B minor', 'Piano_Sonatas_8-1': 'A minor', Kreisleriana_4: 'Bb major',
};

/** Share of the keys that has to be right; one in ten may begin and close in different keys. */
const LEAST_RIGHT = 0.9;

/** "Ab major" from "Ballade No. 3 in A-Flat Major"; null where a title names no key. */
function keyInTitle(title: string): string | null {
  const [, letter = '', sign = '', mode = ''] = /\b([A-G])(?:[\s-]?(flat|sharp|[b#♭♯]))?[\s-]+(major|minor)\b/i.exec(title) ?? [];
  if (letter === '') return null;
  const alter = /flat|b|♭/i.test(sign) ? 'b' : /sharp|#|♯/i.test(sign) ? '#' : '';
  return `${letter.toUpperCase()}${alter} ${mode.toLowerCase()}`;
}

test.each([
  ['Prelude in B flat minor', 'Bb minor'], ['Ballade No. 3 in A-Flat Major', 'Ab major'], ['6. A Minor', 'A minor'], ['Study in C♯ minor', 'C# minor'],
  ['Rowing Home', null], ['Beminor', null],
])('the key in a title: %s', (title, key) => {
  expect(keyInTitle(title)).toBe(key);
});

/** The key of a score as the analysis has it. */
function keyFound(score: Score): string {
  const key = analyseHarmony(score).globalKey;
  return key === null ? 'none' : `${key.spelling} ${key.mode}`;
}

test.skipIf(!there)('concert scores whose titles name a key, and those that catalogues know', { timeout: 120_000 }, () => {
  const compared = readdirSync(folder).flatMap((name) => {
    const score = readScore(new Uint8Array(readFileSync(join(folder, name, 'score.musicxml'))), { fileName: 'score.musicxml' });
    const catalogued = Object.entries(CATALOGUED).find(([part]) => name.includes(part))?.[1];
    const named = keyInTitle(score.title) ?? catalogued ?? null;
    return named === null ? [] : [{ name, named, titled: keyInTitle(score.title) !== null, found: keyFound(score) }];
  });
  const titled = compared.filter((one) => one.titled);
  expect(titled.length).toBeGreaterThanOrEqual(5);
  expect(titled.filter((one) => one.found !== one.named)).toEqual([]);
  const right = compared.filter((one) => one.found === one.named);
  expect({ wrong: compared.filter((one) => one.found !== one.named), enough: right.length >= LEAST_RIGHT * compared.length }).toMatchObject({ enough: true });
});
