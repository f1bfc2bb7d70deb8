import type { Job, JobResult } from './jobs.js';
import type { KeptResults, ResultName } from './keptResults.js';
import type { Pool } from './pool.js';

/** How a job is run: under which name its result is kept, and for how long at most it may take. */
export interface Running {
  readonly name: ResultName;
  readonly timeoutMs: number;
}

/** Runs a job, unless its result is on the disk already; a new one is kept there while the asker goes on. */
export function runKept(pool: Pool<Job, JobResult>, kept: KeptResults): (job: Job, running: Running) => Promise<JobResult> {
  return async (job, { name, timeoutMs }) => {
    const known = await kept.read(name);
    if (isResult(known)) return known;
    const made = await pool.run(job, timeoutMs);
    void kept.write(name, made);
    return made;
  };
}

/** True for what a worker gives; under its checksum and this version's folder lies what this program wrote. */
function isResult(known: unknown): known is JobResult {
  return typeof known === 'object' && known !== null && 'kind' in known && 'value' in known;
}
