/** What a child process of the bench does: one size, one kind of work, a line of JSON. */
import { readFileSync } from 'node:fs';
import { median } from 'simple-statistics';
import { alignRecording } from '../../src/align/index.js';
import { analyseScore } from '../../src/analysis/index.js';
import { engraveScore } from '../../src/engrave/index.js';
import { barFacts } from '../../src/measure/barFacts.js';
import { levelFacts } from '../../src/measure/levels.js';
import { onsetDeviations } from '../../src/measure/onsetDeviation.js';
import { pedalFacts } from '../../src/measure/pedalFacts.js';
import { readRecording } from '../../src/recording/index.js';
import { readScore } from '../../src/score/index.js';

/** Times are milliseconds; cold is the first time in a fresh process, warm the median of `REPEATS` further times. */
export interface AlignFigures {
  readonly written: number;
  readonly played: number;
  readonly parseMs: number;
  readonly alignMs: number;
  readonly warmParseMs: number;
  readonly warmAlignMs: number;
  /** Largest resident memory of the process after parsing and after aligning once, MB. */
  readonly parsePeakMb: number;
  readonly alignPeakMb: number;
  /** Share of key presses that found a written note, 0-1: shows that the work was done. */
  readonly matched: number;
}

/** Width 1024 px; the engraver's start is counted, as it is in real use. */
export interface EngraveFigures {
  readonly engraveMs: number;
  readonly peakMb: number;
}

/** The teaching notes of the score alone; reading is not timed. Growth is seen by written notes. */
export interface AnalyseFigures {
  readonly written: number;
  readonly analyseMs: number;
  readonly warmAnalyseMs: number;
}

const REPEATS = 3;
const WIDTH_PX = 1024;
const TEN_MINUTES_S = 600;

/** Where the two files of one size lie. */
export interface Files {
  readonly score: string;
  readonly recording: string;
}

/** Reads both files and aligns them. Fetching the bytes from disk is not timed. */
export function alignJob(files: Files): AlignFigures {
  const [scoreBytes, recordingBytes] = [readFileSync(files.score), readFileSync(files.recording)];
  const parse = () => ({ score: readScore(scoreBytes, { fileName: 'bench.musicxml' }), recording: readRecording(recordingBytes, { fileName: 'bench.mid' }) });
  const cold = timed(parse);
  const parsePeakMb = peakMb();
  const { score, recording } = cold.value;
  const first = timed(() => alignRecording(score, recording));
  const alignPeakMb = peakMb();
  return {
    written: score.notes.length, played: recording.notes.length, parseMs: cold.ms, alignMs: first.ms, parsePeakMb, alignPeakMb, matched: first.value.matched,
    warmParseMs: repeated(parse), warmAlignMs: repeated(() => alignRecording(score, recording)),
  };
}

/** Engraves the score. */
export async function engraveJob(files: Files): Promise<EngraveFigures> {
  const score = readScore(readFileSync(files.score), { fileName: 'bench.musicxml' });
  if (score.xml === null) throw new TypeError('the bench score is MusicXML');
  const start = performance.now();
  await engraveScore(score.xml, { widthPx: WIDTH_PX, bars: score.bars });
  return { engraveMs: performance.now() - start, peakMb: peakMb() };
}

/** Analyses the score. */
export function analyseJob(files: Files): AnalyseFigures {
  const score = readScore(readFileSync(files.score), { fileName: 'bench.musicxml' });
  const first = timed(() => analyseScore(score));
  return { written: score.notes.length, analyseMs: first.ms, warmAnalyseMs: repeated(() => analyseScore(score)) };
}

function timed<T>(work: () => T): { readonly value: T; readonly ms: number } {
  const start = performance.now();
  const value = work();
  return { value, ms: performance.now() - start };
}

function repeated(work: () => unknown): number {
  return median(Array.from({ length: REPEATS }, () => timed(work).ms));
}

function peakMb(): number {
  return process.resourceUsage().maxRSS / 1024;
}

/** Ringing, roughness and levels under a heavy pedal. Times are milliseconds; cold is the first time in a fresh process. */
export interface SoundFigures {
  /** Everything of the pedal and of levels. */
  readonly soundMs: number;
  readonly warmSoundMs: number;
  /** Cold, for ten minutes of this recording. */
  readonly tenMinutesMs: number;
  /** Cold, by the time that reading both files takes in the same process: what carries over to another machine. */
  readonly byParse: number;
}

/** A slow foot: the pedal goes up and down again once in so many seconds, sent as a curve of so many points a second. */
const FOOT = { everyS: 4, pointsASecond: 100 } as const;

/** Measures the sound of one size with heavy pedal: nearly always down, most of the harmonies blurred. */
export function soundJob(files: Files): SoundFigures {
  const [scoreBytes, recordingBytes] = [readFileSync(files.score), readFileSync(files.recording)];
  const { value: { score, recording: played }, ms: parseMs } = timed(() => ({ score: readScore(scoreBytes, { fileName: 'bench.musicxml' }), recording: readRecording(recordingBytes, { fileName: 'bench.mid' }) }));
  const sustain = Array.from({ length: Math.ceil(played.durationS * FOOT.pointsASecond) }, (_, i) => {
    const timeS = i / FOOT.pointsASecond;
    return { timeS, value: Math.round(127 * Math.min(1, 5 * Math.abs((timeS % FOOT.everyS) - 0.2))) };
  });
  const piece = { score, recording: { ...played, sustain }, alignment: alignRecording(score, played), analysis: analyseScore(score) };
  const bars = barFacts(piece, onsetDeviations(piece));
  const sound = () => [pedalFacts(piece, bars), levelFacts(piece, bars)];
  const soundMs = timed(sound).ms;
  return { soundMs, warmSoundMs: repeated(sound), tenMinutesMs: (soundMs * TEN_MINUTES_S) / played.durationS, byParse: soundMs / parseMs };
}
