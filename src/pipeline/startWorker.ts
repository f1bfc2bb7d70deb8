import { existsSync } from 'node:fs';
import { Worker } from 'node:worker_threads';

/** Most memory a worker's own heap may take, MB: several times what the longest score needs. */
const HEAP_MB = 1536;

/**
 * Starts the pipeline's worker from the built program; under a test runner, which runs the TypeScript sources, too.
 * @throws TypeError where the program has not been built
 */
export function startWorker(): Worker {
  const beside = new URL('./worker.js', import.meta.url);
  const file = existsSync(beside) ? beside : new URL('../../dist/pipeline/worker.js', import.meta.url);
  if (!existsSync(file)) throw new TypeError('dist/pipeline/worker.js is missing: build the program first');
  return new Worker(file, { execArgv: [], resourceLimits: { maxOldGenerationSizeMb: HEAP_MB } });
}
