/** What is asked of a worker and what it answers; all of it can be cloned across the thread. */
import { alignRecording, type Alignment } from '../align/index.js';
import { analyseScore, withTeachersPlan, type Analysis, type TeachersPlan } from '../analysis/index.js';
import { InputError } from '../base/index.js';
import { engraveScore, type Engraving, type Toolkit } from '../engrave/index.js';
import { measureAll, pedalFacts } from '../measure/index.js';
import { readRecording, type Recording } from '../recording/index.js';
import { readScore, type Bar, type Score } from '../score/index.js';
import type { AnalysedScore, BarRange, Reading, SourceFile } from './types.js';

/** Reads a score file. */
export interface ScoreJob {
  readonly kind: 'score';
  readonly file: SourceFile;
}

/** Analyses a score that was read. */
export interface AnalysisJob {
  readonly kind: 'analysis';
  readonly score: Score;
}

/** Puts a teacher's pedal plan into an analysis. */
export interface PlanJob extends AnalysedScore {
  readonly kind: 'plan';
  readonly plan: TeachersPlan;
}

/** Reads a recording, aligns it to a score that was read and analysed, and measures it. */
export interface ReadingJob extends AnalysedScore {
  readonly kind: 'reading';
  /** Name of the score's file, for errors about it. */
  readonly scoreName: string;
  readonly recording: SourceFile;
}

/** Measures the pedal of a reading anew, under an analysis with another plan: all else stays. */
export interface PedalJob {
  readonly kind: 'pedal';
  readonly analysis: Analysis;
  readonly reading: Reading;
}

/** Engraves MusicXML at one width. */
export interface EngravingJob {
  readonly kind: 'engraving';
  readonly xml: string;
  readonly bars: readonly Bar[];
  readonly part: string | undefined;
  readonly widthPx: number;
  readonly only: BarRange | undefined;
}

/** One thing to do. */
export type Job = ScoreJob | AnalysisJob | PlanJob | ReadingJob | PedalJob | EngravingJob;

/** A reading without the score and its analysis, which the asker has already. */
export type ReadingResult = Omit<Reading, keyof AnalysedScore>;

/** What comes of each kind of job. */
export type JobResult =
  | { readonly kind: 'score'; readonly value: Score }
  | { readonly kind: 'analysis'; readonly value: Analysis }
  | { readonly kind: 'reading'; readonly value: ReadingResult }
  | { readonly kind: 'engraving'; readonly value: Engraving };

/**
 * Does one job.
 * @throws InputError for what is wrong with the files
 */
export async function runJob(job: Job, toolkit: Toolkit): Promise<JobResult> {
  switch (job.kind) {
    case 'score':
      return { kind: 'score', value: readFile(job.file, job.file.part) };
    case 'analysis':
      return { kind: 'analysis', value: analyseScore(job.score) };
    case 'plan':
      return { kind: 'analysis', value: withTeachersPlan(job.score, job.analysis, job.plan) };
    case 'reading':
      return { kind: 'reading', value: readAgainst(job, job.scoreName, job.recording) };
    case 'pedal':
      return { kind: 'reading', value: withPedal(job) };
    case 'engraving':
      return { kind: 'engraving', value: await engrave(job, toolkit) };
  }
}

/**
 * The way from two files to a result, done here and now in the caller's own thread; for the command line, which has
 * nothing else to do meanwhile.
 * @throws InputError, code `wrong-piece` where the recording is not of this score
 */
export function readTogether(score: SourceFile, recording: SourceFile, part = score.part): Reading {
  return readAgainstOne(analyseTogether(score, part), score, recording);
}

/** The same for several recordings of one score, which is read and analysed once. @throws InputError as `readTogether` */
export function readAllTogether(score: SourceFile, recordings: readonly SourceFile[], part = score.part): readonly Reading[] {
  const analysed = analyseTogether(score, part);
  return recordings.map((recording) => readAgainstOne(analysed, score, recording));
}

/** One recording as a whole reading. */
function readAgainstOne(analysed: AnalysedScore, score: SourceFile, recording: SourceFile): Reading {
  return { ...analysed, ...readAgainst(analysed, score.name, recording) };
}

/**
 * The way from a score file to its analysis, done here and now in the caller's own thread.
 * @throws InputError for what is wrong with the file
 */
export function analyseTogether(file: SourceFile, part = file.part): AnalysedScore {
  const score = readFile(file, part);
  return { score, analysis: analyseWith(score, file.plan) };
}

/** The analysis, under the teacher's pedal plan where there is one. */
function analyseWith(score: Score, plan: TeachersPlan | undefined): Analysis {
  const analysis = analyseScore(score);
  return plan === undefined ? analysis : withTeachersPlan(score, analysis, plan);
}

/** One engraving on the worker’s own engraver. */
function engrave({ xml, widthPx, bars, part, only }: EngravingJob, toolkit: Toolkit): Promise<Engraving> {
  return engraveScore(xml, { widthPx, bars, toolkit, ...(part === undefined ? {} : { part }), ...(only === undefined ? {} : { only }) });
}

/** One score file. */
function readFile(file: SourceFile, part: string | undefined): Score {
  return readScore(file.bytes, { fileName: file.name, ...(part === undefined ? {} : { part }) });
}

/** One recording against a score that was read and analysed. */
function readAgainst({ score, analysis }: AnalysedScore, scoreName: string, file: SourceFile): ReadingResult {
  const recording = readRecording(file.bytes, { fileName: file.name });
  const alignment = align(score, recording, { score: scoreName, recording: file.name });
  return { recording, alignment, measures: measureAll({ score, analysis, recording, alignment }) };
}

/** A reading with its pedal measured under another plan. */
function withPedal({ analysis, reading: { score, recording, alignment, measures } }: PedalJob): ReadingResult {
  return { recording, alignment, measures: { ...measures, pedal: pedalFacts({ score, analysis, recording, alignment }, measures.bars) } };
}

/**
 * Aligns; what is wrong gets the name of the file that it is about.
 * @throws InputError `wrong-piece` naming the recording, `no-notes` naming the score
 */
function align(score: Score, recording: Recording, names: { readonly score: string; readonly recording: string }): Alignment {
  try {
    return alignRecording(score, recording);
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    throw error.inFile(error.code === 'wrong-piece' ? names.recording : names.score);
  }
}
