import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { alignRecording } from '../../src/align/index.js';
import { analyseScore } from '../../src/analysis/index.js';
import { makeTake, pieces, takes } from '../../src/demo/index.js';
import { judgeAll } from '../../src/judge/index.js';
import { measureAll } from '../../src/measure/index.js';
import { readRecording, recordingBytes, type Recording } from '../../src/recording/index.js';
import { readScore, type Score } from '../../src/score/index.js';
import type { SoundInput } from '../../src/sound/index.js';

const ROOM = join(import.meta.dirname, '../../sample-recordings');

/** Folder of the open data, or "" where none is named. */
const CORPUS = process.env['BARWISE_CORPUS'] ?? '';

/** Everything that versions are made from, for a recording of a score. */
export function soundInput(score: Score, recording: Recording): SoundInput {
  const whole = { score, recording, analysis: analyseScore(score), alignment: alignRecording(score, recording) };
  const measures = measureAll(whole);
  return { ...whole, measures, observations: judgeAll({ ...whole, measures, language: 'british' }).observations };
}

/** A recording as it could be, heard anew against the same score. */
export function heardAgain(input: SoundInput, recording: Recording): SoundInput {
  const whole = { ...input, recording, alignment: alignRecording(input.score, recording) };
  const measures = measureAll(whole);
  return { ...whole, measures, observations: judgeAll({ ...whole, measures, language: 'british' }).observations };
}

/** Names of the demo room's recordings, "piece/take". */
export function demoNames(): readonly string[] {
  const folders = readdirSync(ROOM, { withFileTypes: true }).filter((entry) => entry.isDirectory() && existsSync(join(ROOM, entry.name, 'score.musicxml')));
  return folders.flatMap(({ name }) => readdirSync(join(ROOM, name)).filter((file) => file.endsWith('.mid')).map((file) => `${name}/${file}`));
}

/** One of the demo room's recordings. */
export function demoInput(name: string): SoundInput {
  const [piece = '', file = ''] = name.split('/');
  return soundInput(scoreIn(join(ROOM, piece, 'score.musicxml')), readRecording(readFileSync(join(ROOM, piece, file)), { fileName: file }));
}

/** A take of the demo's maker with all its faults left out: same player, same scatter. */
export function faultless(takeName: string): SoundInput {
  const plan = takes.find(({ name }) => name === takeName)!;
  const piece = pieces.find(({ slug }) => slug === plan.piece)!;
  const take = makeTake(piece, { ...plan, faults: [] });
  const bytes = recordingBytes({ notes: take.notes, sustain: take.sustain }, { name: 'made' });
  return soundInput(scoreIn(join(ROOM, plan.piece, 'score.musicxml')), readRecording(bytes, { fileName: 'made.mid' }));
}

/** Scores and recordings of the open data of one sort: a fixed few; none without the data. */
export function corpusPairs(): readonly { readonly name: string; readonly score: string; readonly recording: string }[] {
  if (CORPUS === '') return [];
  return ['vienna', 'pupils', 'sonatas'].flatMap((sort) => readdirSync(join(CORPUS, sort)).slice(0, 2).flatMap((piece) => {
    const folder = join(CORPUS, sort, piece);
    const files = readdirSync(folder, { recursive: true }).map(String);
    const score = files.find((file) => /\.(musicxml|xml|mxl)$/.test(file));
    return score === undefined ? [] : files.filter((file) => file.endsWith('.mid')).slice(0, 2).map((file) => ({ name: `${piece}/${file}`, score: join(folder, score), recording: join(folder, file) }));
  }));
}

/** One recording of the open data. */
export function corpusInput({ score, recording }: { readonly score: string; readonly recording: string }): SoundInput {
  return soundInput(scoreIn(score), readRecording(readFileSync(recording), { fileName: 'take.mid' }));
}

/** A score file. */
function scoreIn(path: string): Score {
  return readScore(readFileSync(path), { fileName: path.split('/').at(-1)! });
}
