/** `barwise analyse` as a person or another program runs it: what it prints where, and its exit codes. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { bars, note, partwise, rest, utf8 } from './score/build.js';

const CLI = fileURLToPath(new URL('../dist/cli.js', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'barwise-analyse-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function analyse(...args: readonly string[]): { readonly code: number | null; readonly out: string; readonly err: string } {
  const { status, stdout, stderr } = spawnSync(process.execPath, [CLI, 'analyse', ...args], { cwd: folder, encoding: 'utf8', timeout: 30_000 });
  return { code: status, out: stdout, err: stderr };
}

const tune = (names: string): string => bars(names.split(' | ').map((bar) => bar.split(' ').map((name) => note(name, 2)).join('')));

beforeAll(() => {
  writeFileSync(join(folder, 'tune.musicxml'), utf8(partwise(tune('C4 E4 G4 C5 | B4 G4 D4 G4 | C5 G4 E4 C4'))));
  writeFileSync(join(folder, 'two.musicxml'), utf8(partwise([{ id: 'P1', name: 'Flute', measures: tune('C5 C5 C5 C5') }, { id: 'P2', name: 'Piano', measures: tune('C4 D4 E4 F4 | G4 A4 B4 C5') }])));
  writeFileSync(join(folder, 'rests.musicxml'), utf8(partwise(bars([rest(8)]))));
  writeFileSync(join(folder, 'broken.musicxml'), 'no score');
});

it('prints every field of the contract, and nothing but JSON on standard output', () => {
  const { code, out } = analyse('tune.musicxml', '--json');
  expect(code).toBe(0);
  const report: unknown = JSON.parse(out);
  expect(report).toMatchObject({ format: 'barwise-analysis/1', order: ['1', '2', '3'], keys: [{ bar: '1', tonic: 0, mode: 'major' }] });
  for (const field of ['sections', 'phrases', 'harmonies', 'cadences', 'pitfalls', 'pedalPlan', 'notes']) expect(report).toHaveProperty(field);
});

it('prints the teaching notes for a person', () => {
  const { code, out } = analyse('tune.musicxml');
  expect(code).toBe(0);
  expect(out).toMatch(/^Before teaching it\n- 3 bars of 4\/4/m);
});

it('reads the part that is asked for', () => {
  expect(analyse('two.musicxml', '--part', 'Flute').out).toMatch(/^- 1 bar of 4\/4/m);
  expect(analyse('two.musicxml', '--part', 'P2').out).toMatch(/^- 2 bars of 4\/4/m);
});

it('says of a score of rests that there are no notes', () => {
  const { code, out } = analyse('rests.musicxml');
  expect(code).toBe(0);
  expect(out).toContain('There are no notes in this score.');
});

it.each([['broken.musicxml'], ['nowhere.musicxml']])('refuses %s with 3, naming it', (name) => {
  const { code, out, err } = analyse(name);
  expect({ code, out }).toEqual({ code: 3, out: '' });
  expect(err).toMatch(new RegExp(`^barwise: ${name}[,:]`, 'm'));
});

it.each([[[]], [['tune.musicxml', 'two.musicxml']], [['tune.musicxml', '--loud']]])('refuses %j as wrong use with 2', (args) => {
  const { code, out } = analyse(...args);
  expect({ code, out }).toEqual({ code: 2, out: '' });
});

it('takes the teacher’s own pedal plan, and names the file where it is none', () => {
  writeFileSync(join(folder, 'plan.json'), JSON.stringify([{ barIndex: 0, offset: 0, kind: 'none' }, { barIndex: 1, offset: 2, kind: 'ring' }]));
  writeFileSync(join(folder, 'half.json'), '[{"barIndex":0,"offset":0,"kind":"half"}]');
  const report: unknown = JSON.parse(analyse('tune.musicxml', '--json', '--plan', 'plan.json').out);
  expect(report).toMatchObject({ pedalPlan: { entries: [{ kind: 'none' }, { kind: 'ring', source: 'teacher', from: { bar: '2', offset: 2 } }] } });
  expect(analyse('tune.musicxml', '--plan', 'half.json')).toMatchObject({ code: 3, err: expect.stringContaining('half.json') as string });
  expect(analyse('tune.musicxml', '--plan', 'broken.musicxml')).toMatchObject({ code: 3, err: expect.stringContaining('a pedal plan was expected') as string });
});
