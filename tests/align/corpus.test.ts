/** Three takes of real playing against hand-made truth, where BARWISE_CORPUS names the folder of the data; nothing of it stands here. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { alignRecording, alignmentReport } from '../../src/align/index.js';
import { readRecording } from '../../src/recording/index.js';
import { readScore, type Score } from '../../src/score/index.js';
import { fMeasure } from './takes.js';

const folder = join(process.env['BARWISE_CORPUS'] ?? '', 'vienna');
const there = process.env['BARWISE_CORPUS'] !== undefined && existsSync(folder);
if (!there) console.log('takes of real playing are left out: BARWISE_CORPUS names no folder with `vienna` in it');

/** The first take of each of the first three pieces. */
const PIECES = there ? readdirSync(folder).sort().slice(0, 3) : [];
const TAKE = 'take-01';
/** A pair is right when it names a press within so many seconds. */
const NEAR_S = 0.003;

interface Reported {
  readonly pairs: readonly { readonly note: string; readonly pass: number; readonly onset: number; readonly pitch: number }[];
}

/** First of the notes that stand on one key at one moment: either name is right. */
function twins(score: Score): (id: string) => string {
  const first = new Map<string, string>();
  const names = new Map(score.notes.map((note) => {
    const place = `${note.onsetTick} ${note.pitch.midi} ${note.grace?.before ?? 0}`;
    if (!first.has(place)) first.set(place, note.id);
    return [note.id, first.get(place)!];
  }));
  return (id) => names.get(id) ?? id;
}

describe.skipIf(!there)('real playing', () => {
  it('has three pieces', () => {
    expect(PIECES).toHaveLength(3);
  });

  it.each(PIECES)('%s: at least 99.3 in 100 notes', (piece) => {
    const read = (name: string): Uint8Array => readFileSync(join(folder, piece, name));
    const score = readScore(read('score.musicxml'), { fileName: 'score.musicxml' });
    const recording = readRecording(read(`${TAKE}.mid`), { fileName: `${TAKE}.mid` });
    const { pairs } = JSON.parse(JSON.stringify(alignmentReport(score, recording, alignRecording(score, recording)))) as Reported;
    const same = twins(score);
    const rows = Buffer.from(read(`${TAKE}.truth.tsv`)).toString('utf8').trimEnd().split('\n').slice(1).map((line) => line.split('\t'));
    const wanted = new Map<string, { note: string; pass: number; onset: number }[]>();
    const matched = rows.filter(([status]) => status === 'matched');
    for (const [, note = '', pass, onset, pitch = ''] of matched) wanted.set(pitch, [...(wanted.get(pitch) ?? []), { note: same(note), pass: Number(pass), onset: Number(onset) }]);
    const right = pairs.filter((pair) => wanted.get(String(pair.pitch))?.some((one) => one.note === same(pair.note) && one.pass === pair.pass && Math.abs(one.onset - pair.onset) <= NEAR_S));
    expect(fMeasure(right.length, pairs.length, matched.length)).toBeGreaterThanOrEqual(0.993);
  });
});
