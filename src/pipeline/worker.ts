/** The worker's own entry: one job after another, one engraver kept for all of them. */
import { parentPort } from 'node:worker_threads';
import { createToolkit } from '../engrave/index.js';
import { runJob, type Job, type JobResult } from './jobs.js';
import { failed, type Answer, type Request } from './messages.js';

const toolkit = createToolkit();

/** Does a job; whatever goes wrong becomes an answer too. */
async function answer({ id, job }: Request<Job>): Promise<Answer<JobResult>> {
  try {
    return { id, kind: 'done', value: await runJob(job, toolkit) };
  } catch (error) {
    return failed(id, error);
  }
}

parentPort?.on('message', (request: Request<Job>) => {
  void answer(request).then((result) => parentPort?.postMessage(result));
});
