import { availableParallelism } from 'node:os';
import type { Analysis } from '../analysis/index.js';
import { InputError } from '../base/index.js';
import { barGrid, checkWidth, NO_NOTATION, type Engraving } from '../engrave/index.js';
import type { Score } from '../score/index.js';
import { createCache } from './cache.js';
import { contentHash, programVersion } from './contentKey.js';
import type { Job, JobResult, PedalJob, PlanJob } from './jobs.js';
import { keepResultsIn, NOTHING_KEPT, type ResultName } from './keptResults.js';
import { WorkerFault } from './messages.js';
import { createPool, type Pool } from './pool.js';
import { runKept } from './runKept.js';
import { startWorker } from './startWorker.js';
import type { BarRange, Pipeline, Reading, SourceFile } from './types.js';

/** How much a pipeline may use. */
export interface PipelineOptions {
  /** Worker threads at most; one fewer than the processors (at least 1, at most 4) where left out. */
  readonly workers?: number;
  /** Results of each kind that are kept; an engraving of a long score takes some 4 MB. */
  readonly cacheEntries?: number;
  /** After this time an engraving is given up for a bar grid. */
  readonly engraveTimeoutMs?: number;
  /** Folder in which results are kept from one start to the next; nothing is kept where left out. */
  readonly folder?: string;
}

/** Kept results of each kind: a term's work of a small studio in one evening. */
const CACHE_ENTRIES = 60;

/** Five times what the longest of 33 real scores (8,500 notes) took to engrave on two busy processors: 11 s. */
const ENGRAVE_TIMEOUT_MS = 60_000;

/** Far beyond what the longest score and recording take; only a fault or a hostile file lasts so long. */
const READ_TIMEOUT_MS = 120_000;

/** Opens a pipeline; its workers start with the first job. Close it in the end. */
export function createPipeline(options: PipelineOptions = {}): Pipeline {
  const { workers = usualWorkers(), cacheEntries = CACHE_ENTRIES, engraveTimeoutMs = ENGRAVE_TIMEOUT_MS } = options;
  const pool = createPool<Job, JobResult>({ size: workers, start: startWorker });
  const version = programVersion();
  const kept = options.folder === undefined ? NOTHING_KEPT : keepResultsIn(options.folder, version);
  const run = runKept(pool, kept);
  const scores = createCache<Score>(cacheEntries);
  const analyses = createCache<Analysis>(cacheEntries);
  const readings = createCache<Reading>(cacheEntries);
  const engravings = createCache<Engraving>(cacheEntries);
  const scoreKey = (file: SourceFile, ...more: readonly string[]): string => JSON.stringify([version, contentHash(file.bytes), file.part ?? '', ...more]);
  // what is judged by the teacher's plan is another result under another plan; score and engraving stay
  const plannedKey = (file: SourceFile, ...more: readonly string[]): string => scoreKey(file, JSON.stringify(file.plan ?? null), ...more);

  const engravingKey = (file: SourceFile, ...at: readonly (number | BarRange | undefined)[]): string => scoreKey(file, JSON.stringify(at));

  function score(file: SourceFile): Promise<Score> {
    return scores.get(scoreKey(file), () => readScoreFile(file));
  }

  async function readScoreFile(file: SourceFile): Promise<Score> {
    const result = await run({ kind: 'score', file }, { name: resultName('score', [file], scoreKey(file)), timeoutMs: READ_TIMEOUT_MS }).catch(named(file));
    return result.kind === 'score' ? result.value : mixedUp(result);
  }

  function analysis(file: SourceFile): Promise<Analysis> {
    return analyses.get(plannedKey(file), () => analyse(file));
  }

  function reading(scoreFile: SourceFile, recording: SourceFile): Promise<Reading> {
    return readings.get(plannedKey(scoreFile, contentHash(recording.bytes)), () => readAgainst(scoreFile, recording));
  }

  async function analyse(file: SourceFile): Promise<Analysis> {
    if (file.plan !== undefined) return underPlan(pool, file, { kind: 'plan', score: await score(file), analysis: await analysis({ ...file, plan: undefined }), plan: file.plan });
    const result = await run({ kind: 'analysis', score: await score(file) }, { name: resultName('analysis', [file], plannedKey(file)), timeoutMs: READ_TIMEOUT_MS }).catch(named(file));
    return result.kind === 'analysis' ? result.value : mixedUp(result);
  }

  async function readAgainst(scoreFile: SourceFile, recording: SourceFile): Promise<Reading> {
    if (scoreFile.plan !== undefined) return pedalUnderPlan(pool, recording, { kind: 'pedal', analysis: await analysis(scoreFile), reading: await reading({ ...scoreFile, plan: undefined }, recording) });
    const known = { score: await score(scoreFile), analysis: await analysis(scoreFile) };
    const name = resultName('reading', [scoreFile, recording], plannedKey(scoreFile));
    const result = await run({ kind: 'reading', ...known, scoreName: scoreFile.name, recording }, { name, timeoutMs: READ_TIMEOUT_MS }).catch(named(recording));
    return result.kind === 'reading' ? { ...known, ...result.value } : mixedUp(result);
  }

  return {
    score,
    analysis,
    reading,
    engraving: (file, widthPx, only) => {
      const name = resultName('engraving', [file], engravingKey(file, widthPx, only));
      return engravings.get(name.key, async () => engraveKept(await score(file), { widthPx, only }, (job) => run(job, { name, timeoutMs: engraveTimeoutMs })));
    },
    forget: async (files) => {
      const isOne = (one: string): boolean => files.some((file) => one.includes(file));
      for (const cache of [scores, analyses, readings, engravings]) cache.drop(isOne);
      await kept.forget(files);
    },
    close: () => pool.close(),
  };
}

/** Engraves a score that was read; where that fails it is a bar grid, with the reason. */
async function engraveKept(read: Score, { widthPx, only }: { readonly widthPx: number; readonly only: BarRange | undefined }, run: (job: Job) => Promise<JobResult>): Promise<Engraving> {
  checkWidth(widthPx);
  if (read.xml === null) return barGrid(read, { widthPx, reason: NO_NOTATION });
  const part = read.parts.find(({ chosen }) => chosen)?.id;
  try {
    const result = await run({ kind: 'engraving', xml: read.xml, bars: read.bars, part, widthPx, only });
    return result.kind === 'engraving' ? result.value : mixedUp(result);
  } catch (error) {
    return barGrid(read, { widthPx, reason: reasonOf(error) });
  }
}

/*
 * What hangs on the teacher's plan is quickly made from what does not, and is not kept on the disk: she may change it many times an evening.
 */

/** An analysis under her plan. */
async function underPlan(pool: Pool<Job, JobResult>, file: SourceFile, job: PlanJob): Promise<Analysis> {
  const result = await pool.run(job, READ_TIMEOUT_MS).catch(named(file));
  return result.kind === 'analysis' ? result.value : mixedUp(result);
}

/** A reading with its pedal measured under her plan. */
async function pedalUnderPlan(pool: Pool<Job, JobResult>, recording: SourceFile, job: PedalJob): Promise<Reading> {
  const result = await pool.run(job, READ_TIMEOUT_MS).catch(named(recording));
  return result.kind === 'reading' ? { ...job.reading, ...result.value, analysis: job.analysis } : mixedUp(result);
}

/** What a result is kept under. */
function resultName(kind: JobResult['kind'], files: readonly SourceFile[], key: string): ResultName {
  return { kind, files: files.map(({ bytes }) => contentHash(bytes)), key };
}

/** One processor is left to the pages. */
function usualWorkers(): number {
  return Math.min(4, Math.max(1, availableParallelism() - 1));
}

/** A worker that died or was stopped over a file is told as a fault of that file; faults of the program stay what they are. */
function named(file: SourceFile): (error: unknown) => never {
  return (error) => {
    if (!(error instanceof WorkerFault)) throw error;
    if (error.kind === 'crashed') throw new InputError('unsupported', 'Working on this file ended in a crash; nothing else is lost.', { file: file.name });
    if (error.kind === 'too-slow') throw new InputError('unsupported', 'Working on this file took too long and was stopped.', { file: file.name });
    throw error;
  };
}

/** Why there is only a bar grid, as a clause for the teacher. */
function reasonOf(error: unknown): string {
  if (error instanceof InputError) return error.message;
  if (!(error instanceof WorkerFault) || error.kind === 'closed') throw error;
  return error.kind === 'too-slow' ? 'Engraving this score took too long.' : 'The engraver failed over this score.';
}

/** A worker answers in kind, or the program is broken. */
function mixedUp(result: JobResult): never {
  throw new TypeError(`a worker answered with a ${result.kind}`);
}
