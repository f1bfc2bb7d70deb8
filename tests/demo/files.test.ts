import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { demoFiles } from '../../src/demo/index.js';
import { readRecording } from '../../src/recording/index.js';

const folder = fileURLToPath(new URL('../../sample-recordings/', import.meta.url));
const files = demoFiles();

interface Room {
  readonly invented: boolean;
  readonly pupils: readonly { slug: string }[];
  readonly pieces: readonly { slug: string; score: string }[];
  readonly recordings: readonly { pupil: string; piece: string; file: string; recordedAt: string }[];
  readonly unreadable: readonly { pupil: string; file: string }[];
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

  it('hold one that cannot be read, and is refused with what it is', () => {
    const [unreadable] = room.unreadable;
    expect(() => readRecording(readFileSync(join(folder, unreadable!.file)), { fileName: 'recording.mid' })).toThrow(expect.objectContaining({ name: 'InputError', code: 'not-a-recording' }));
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

  it('gives at least three recordings a piece over eight weeks, oldest first, with local times', () => {
    for (const { slug } of room.pieces) expect(room.recordings.filter((recording) => recording.piece === slug).length).toBeGreaterThanOrEqual(3);
    // weeks from Monday 29 September 2025 on
    const week = (recordedAt: string): number => Math.floor((Date.parse(`${recordedAt}Z`) - Date.parse('2025-09-29T00:00:00Z')) / (7 * 86_400_000));
    expect([...new Set(room.recordings.map(({ recordedAt }) => week(recordedAt)))]).toEqual([0, 1, 2, 3, 4, 5, 6, 7]);
    expect(room.recordings.map(({ recordedAt }) => recordedAt)).toEqual(room.recordings.map(({ recordedAt }) => recordedAt).sort());
    expect(room.recordings.every(({ recordedAt }) => /^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d$/.test(recordedAt))).toBe(true);
  });
});
