/** The built program, run as a person or another program would run it: what it prints where, and its exit codes. */
import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, truncateSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { zipSync } from 'fflate';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { midiFile, note as key, track } from './recording/midiBytes.js';
import { bars, note, partwise, rest, utf8 } from './score/build.js';

const CLI = fileURLToPath(new URL('../dist/cli.js', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'barwise-cli-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

interface Outcome {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

function barwise(...args: readonly string[]): Outcome {
  const { status, stdout, stderr } = spawnSync(process.execPath, [CLI, ...args], { cwd: folder, encoding: 'utf8', timeout: 30_000 });
  return { code: status, out: stdout, err: stderr };
}

/** Two bars, invented: C D E F, G A B C, in crotchets. */
const TUNE = partwise(bars(['C4 D4 E4 F4', 'G4 A4 B4 C5'].map((bar) => bar.split(' ').map((name, i) => note(name, 2, { id: `${name}-${i}` })).join(''))));

/** Half a second a note from the start of the file: 480 ticks at the default tempo. */
function take(...pitches: readonly number[]): Uint8Array {
  return midiFile({}, track(...pitches.map((pitch, i) => key(i === 0 ? 0 : 120, pitch, 360))));
}

/** A packed score whose content is so many bytes. */
function packed(content: Uint8Array): Uint8Array {
  const container = utf8('<container><rootfiles><rootfile full-path="score.xml"/></rootfiles></container>');
  return zipSync({ 'META-INF/container.xml': container, 'score.xml': content });
}

const JPEG = Uint8Array.from([0xff, 0xd8, 0xff, 0xe0, ...Array.from({ length: 500 }, () => 0)]);
const whole = packed(utf8(TUNE));

/** Files by name; every one of them lies in the working folder. */
const FILES: Readonly<Record<string, Uint8Array>> = {
  'tune.musicxml': utf8(TUNE),
  'take.mid': take(60, 62, 64, 65, 67, 69, 71, 72),
  'slip.mid': take(60, 62, 64, 66, 67, 69, 71, 72),
  'other.mid': take(...Array.from({ length: 20 }, (_, i) => (i % 2 === 0 ? 30 + i : 100 - i))),
  'empty.musicxml': new Uint8Array(),
  'empty.mid': new Uint8Array(),
  'text.mid': utf8('Dear teacher, here is my piece.'),
  'photo.musicxml': JPEG,
  'photo.mid': JPEG,
  'half.mxl': whole.subarray(0, Math.floor(whole.length / 2)),
  'bomb.mxl': packed(new Uint8Array(40 * 1024 * 1024).fill(0x20)),
  'entities.musicxml': utf8(TUNE.replace('?>', '?><!DOCTYPE score-partwise [<!ENTITY x SYSTEM "file:///etc/hostname">]>')),
  'nested.musicxml': utf8('<a>'.repeat(100_000)),
  'negative.musicxml': utf8(partwise(bars([note('C4', 2) + note('D4', -2)]))),
  'rests.musicxml': utf8(partwise(bars([rest(8), rest(8)]))),
  'silent.mid': midiFile({}, track()),
};

beforeAll(() => {
  for (const [name, bytes] of Object.entries(FILES)) writeFileSync(join(folder, name), bytes);
  mkdirSync(join(folder, 'folder.mid'));
  // sparse: 3 GB in name alone
  for (const name of ['endless.mid', 'endless.musicxml']) {
    writeFileSync(join(folder, name), '');
    truncateSync(join(folder, name), 3 * 1024 ** 3);
  }
});

describe('barwise align', () => {
  it('prints every field of the contract, and nothing but JSON on standard output', () => {
    const { code, out, err } = barwise('align', 'tune.musicxml', 'slip.mid', '--json');
    expect(code).toBe(0);
    const report: unknown = JSON.parse(out);
    // F4 is due at 1.5 s; F sharp (66) is struck instead: seven of eight presses are paired
    expect(report).toMatchObject({
      format: 'barwise-align/1',
      missed: [{ note: 'F4-3', pass: 1 }],
      added: [{ onset: 1.5, pitch: 66, near: 'F4-3' }],
      ornaments: [],
      route: [{ fromBar: '1', toBar: '2', pass: 1, attempt: 1, hands: 'both', start: 0, end: 3.5 }],
      hands: 'both',
      transposition: 0,
      matched: 0.875,
    });
    expect(report).toHaveProperty('pairs.0', { note: 'C4-0', pass: 1, attempt: 1, onset: 0, pitch: 60 });
    expect(report).toHaveProperty('pairs.6', { note: 'C5-3', pass: 1, attempt: 1, onset: 3.5, pitch: 72 });
    expect(err).toContain('no pedal');
  });

  it('tells a teacher the route and what differs', () => {
    const { code, out } = barwise('align', 'tune.musicxml', 'slip.mid');
    expect(code).toBe(0);
    expect(out).toMatch(/Bar 1.*F sharp for F/);
  });

  it.each([
    ['other.mid', 4],
    ['empty.mid', 3],
    ['text.mid', 3],
    ['photo.mid', 3],
    ['silent.mid', 3],
    ['folder.mid', 3],
    ['endless.mid', 3],
    ['nowhere.mid', 3],
  ])('refuses the recording %s with %i, naming it', (name, expected) => {
    const { code, out, err } = barwise('align', 'tune.musicxml', name);
    expect({ code, out }).toEqual({ code: expected, out: '' });
    expect(err).toMatch(new RegExp(`^barwise: ${name}[,:]`, 'm'));
  });

  it.each([
    'empty.musicxml',
    'photo.musicxml',
    'half.mxl',
    'bomb.mxl',
    'entities.musicxml',
    'nested.musicxml',
    'negative.musicxml',
    'rests.musicxml',
    'endless.musicxml',
    'nowhere.musicxml',
  ])('refuses the score %s with 3, naming it', (name) => {
    const { code, out, err } = barwise('align', name, 'take.mid');
    expect({ code, out }).toEqual({ code: 3, out: '' });
    expect(err).toMatch(new RegExp(`^barwise: ${name}[,:]`, 'm'));
  });
});

describe('barwise pedal', () => {
  it('says that a recording holds no pedal', () => {
    const { code, out } = barwise('pedal', 'tune.musicxml', 'take.mid');
    expect(code).toBe(0);
    expect(out).toContain('The recording holds no pedal');
  });

  it('prints JSON for programs', () => {
    const { code, out } = barwise('pedal', 'tune.musicxml', 'take.mid', '--json');
    expect(code).toBe(0);
    expect(JSON.parse(out)).toMatchObject({ format: 'barwise-pedal/1', habits: { presses: 0, downShare: 0 } });
  });
});

describe('wrong use', () => {
  it.each([
    [[]],
    [['listen']],
    [['align', 'tune.musicxml']],
    [['align', 'tune.musicxml', 'take.mid', 'slip.mid']],
    [['align', 'tune.musicxml', 'take.mid', '--loud']],
    [['pedal', 'tune.musicxml']],
    [['room', 'tune.musicxml']],
    [['room', '--port', 'four']],
    [['room', '--port', '']],
    [['room', '--port', '65536']],
  ])('%j ends with 2 and points to the help', (args) => {
    const { code, out, err } = barwise(...args);
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toContain('barwise --help');
  });

  it('help is no wrong use', () => {
    const { code, out, err } = barwise('--help');
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect(out).toContain('barwise align SCORE RECORDING');
  });
});

describe('barwise room', () => {
  it('refuses a data folder that is a file, or whose database is none, with 3', () => {
    mkdirSync(join(folder, 'damaged'));
    writeFileSync(join(folder, 'damaged', 'barwise.sqlite'), 'not a database, but something else of the same name');
    for (const name of ['take.mid', 'damaged']) {
      const { code, out, err } = barwise('room', '--data', name);
      expect({ code, out }).toEqual({ code: 3, out: '' });
      expect(err).toMatch(new RegExp(`^barwise: ${name}: `));
    }
  });

  it('says with 3 that no port is to be had', async () => {
    // the last port there is, so that no other is tried after it
    const taken = createServer();
    await new Promise<void>((resolve) => taken.once('error', () => resolve()).listen(65_535, '127.0.0.1', resolve));
    const { code, out, err } = barwise('room', '--port', '65535', '--data', 'own');
    taken.close();
    expect({ code, out }).toEqual({ code: 3, out: '' });
    expect(err).toMatch(/^barwise: Port 65535 is in use by other programs, or not open to this account\. Choose another one with --port/);
  });
});
