import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { demoFiles } from '../../src/demo/index.js';

const folder = fileURLToPath(new URL('../../sample-recordings/', import.meta.url));
const files = demoFiles();

interface Room {
  readonly invented: boolean;
  readonly pupils: readonly { slug: string }[];
  readonly pieces: readonly { slug: string; score: string }[];
  readonly recordings: readonly { pupil: string; piece: string; file: string; recordedAt: string }[];
}
const room = JSON.parse(readFileSync(join(folder, 'room.json'), 'utf8')) as Room;

describe('the files of the demo room', () => {
  it.each(files.map((file) => [file.path, file.bytes] as const))('%s is what the maker makes', (path, bytes) => {
    expect(Buffer.compare(readFileSync(join(folder, path)), bytes)).toBe(0);
  });

  it('are all there is besides the README', () => {
    const there = readdirSync(folder, { recursive: true, withFileTypes: true }).filter((entry) => entry.isFile()).length;
    expect(there).toBe(files.length + 1);
  });

  it('are the same bytes when made again', () => {
    expect(demoFiles()).toEqual(files);
  });

  it('say that they are invented', () => {
    const saying = files.filter((file) => !file.path.endsWith('.tsv')).map((file) => [file.path, /invented/i.test(Buffer.from(file.bytes).toString('latin1'))]);
    expect(saying.filter(([, says]) => says === false)).toEqual([]);
  });
});

describe('room.json', () => {
  it('names five pupils, and every recording by one of them of a piece that is there', () => {
    expect(room.invented).toBe(true);
    expect(room.pupils).toHaveLength(5);
    expect(new Set(room.recordings.map((recording) => recording.pupil))).toEqual(new Set(room.pupils.map((pupil) => pupil.slug)));
    for (const { piece, file } of room.recordings) {
      expect(room.pieces.map((each) => each.slug)).toContain(piece);
      expect(existsSync(join(folder, file))).toBe(true);
    }
    expect(room.pieces.every((piece) => existsSync(join(folder, piece.score)))).toBe(true);
  });

  it('gives three recordings a piece, with local times', () => {
    for (const { slug } of room.pieces) expect(room.recordings.filter((recording) => recording.piece === slug)).toHaveLength(3);
    expect(room.recordings.every(({ recordedAt }) => /^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d$/.test(recordedAt))).toBe(true);
  });
});
