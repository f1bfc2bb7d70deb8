/**
 * A small pool of worker threads. Workers are started when needed, kept from job to job, and replaced when they die or
 * run past their time; only the job in hand is lost with them. Idle workers do not keep the program alive.
 */
import type { Worker } from 'node:worker_threads';
import { errorOf, WorkerFault, type Answer, type Request } from './messages.js';

/** How many workers, and how one is started. */
export interface PoolOptions {
  /** At most this many at a time, at least 1. */
  readonly size: number;
  /** Starts a worker that answers every `Request` with one `Answer`. */
  readonly start: () => Worker;
}

/** Runs jobs in turn on the free workers. */
export interface Pool<Job, Result> {
  /**
   * @param timeoutMs from the moment a worker takes the job on
   * @throws InputError as the worker met it, `WorkerFault` where it died, was too slow or was closed
   */
  run(job: Job, timeoutMs: number): Promise<Result>;
  /** Stops all workers; jobs that are not done are rejected. */
  close(): Promise<void>;
}

/** A job that waits for a worker, and whom to tell. */
interface Waiting<Job, Result> {
  readonly job: Job;
  readonly timeoutMs: number;
  readonly resolve: (value: Result) => void;
  readonly reject: (error: Error) => void;
}

/** A worker and the job it has in hand. */
interface Seat<Job, Result> {
  readonly worker: Worker;
  task: { readonly id: number; readonly waiting: Waiting<Job, Result>; readonly timer: NodeJS.Timeout } | null;
}

/** Opens a pool; no worker is started before the first job. @throws RangeError for a size under 1 */
export function createPool<Job, Result>({ size, start }: PoolOptions): Pool<Job, Result> {
  if (!Number.isInteger(size) || size < 1) throw new RangeError(`a pool has at least one worker, not ${size}`);
  return new WorkerPool<Job, Result>(size, start);
}

/** The pool itself: a queue and the seats at work. */
class WorkerPool<Job, Result> implements Pool<Job, Result> {
  readonly #size: number;
  readonly #start: () => Worker;
  readonly #seats = new Set<Seat<Job, Result>>();
  readonly #queue: Waiting<Job, Result>[] = [];
  #lastId = 0;
  #closed = false;

  constructor(size: number, start: () => Worker) {
    this.#size = size;
    this.#start = start;
  }

  run(job: Job, timeoutMs: number): Promise<Result> {
    if (this.#closed) return Promise.reject(new WorkerFault('closed', 'the pool is closed'));
    return new Promise((resolve, reject) => {
      this.#queue.push({ job, timeoutMs, resolve, reject });
      this.#next();
    });
  }

  async close(): Promise<void> {
    this.#closed = true;
    const fault = new WorkerFault('closed', 'the pool was closed');
    for (const waiting of this.#queue.splice(0)) waiting.reject(fault);
    const seats = [...this.#seats];
    for (const seat of seats) this.#lose(seat, fault);
    await Promise.all(seats.map(({ worker }) => worker.terminate()));
  }

  /** Gives waiting jobs to free workers, starting new ones up to the size. */
  #next(): void {
    while (this.#queue.length > 0) {
      const free = [...this.#seats].find(({ task }) => task === null) ?? (this.#seats.size < this.#size ? this.#open() : undefined);
      const waiting = free && this.#queue.shift();
      if (!free || !waiting) return;
      this.#begin(free, waiting);
    }
  }

  #open(): Seat<Job, Result> {
    const seat: Seat<Job, Result> = { worker: this.#start(), task: null };
    this.#seats.add(seat);
    seat.worker.on('message', (answer: Answer<Result>) => this.#finish(seat, answer));
    seat.worker.on('error', (error) => this.#lose(seat, new WorkerFault('crashed', String(error))));
    seat.worker.on('exit', (code) => this.#lose(seat, new WorkerFault('crashed', `the worker ended with ${code}`)));
    return seat;
  }

  #begin(seat: Seat<Job, Result>, waiting: Waiting<Job, Result>): void {
    this.#lastId += 1;
    const late = new WorkerFault('too-slow', `stopped after ${waiting.timeoutMs} ms`);
    const timer = setTimeout(() => this.#lose(seat, late), waiting.timeoutMs);
    seat.task = { id: this.#lastId, waiting, timer };
    seat.worker.ref();
    const request: Request<Job> = { id: this.#lastId, job: waiting.job };
    seat.worker.postMessage(request);
  }

  #finish(seat: Seat<Job, Result>, answer: Answer<Result>): void {
    if (seat.task?.id !== answer.id) return;
    const { waiting, timer } = seat.task;
    clearTimeout(timer);
    seat.task = null;
    seat.worker.unref();
    const error = errorOf(answer);
    if (error) waiting.reject(error);
    else if (answer.kind === 'done') waiting.resolve(answer.value);
    this.#next();
  }

  /** Ends a worker; the job in hand is rejected, the next one gets a fresh worker. */
  #lose(seat: Seat<Job, Result>, fault: WorkerFault): void {
    if (!this.#seats.delete(seat)) return;
    if (seat.task) {
      clearTimeout(seat.task.timer);
      seat.task.waiting.reject(fault);
      seat.task = null;
    }
    void seat.worker.terminate();
    this.#next();
  }
}
