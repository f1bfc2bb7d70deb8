import { Worker } from 'node:worker_threads';
import { afterEach, expect, test } from 'vitest';
import { createPool, type Pool } from '../../src/pipeline/pool.js';

/** A worker that does what its job says: answer, answer late, name its thread, refuse, fail, die, or never come back. */
const UNRULY = `
  const { parentPort, threadId } = require('node:worker_threads');
  parentPort.on('message', ({ id, job }) => {
    const done = (value) => parentPort.postMessage({ id, kind: 'done', value });
    if (job === 'thread') done(threadId);
    else if (job === 'slow') setTimeout(() => done('slow'), 50);
    else if (job === 'refuse') parentPort.postMessage({ id, kind: 'input', code: 'bad-value', sentence: 'A note has no length.', place: { file: 'x.musicxml', bar: '12a' } });
    else if (job === 'fault') parentPort.postMessage({ id, kind: 'fault', detail: 'TypeError: somewhere' });
    else if (job === 'exit') process.exit(3);
    else if (job === 'throw') setTimeout(() => { throw new TypeError('unexpected'); });
    else if (job === 'hang') for (;;);
    else done(job);
  });
`;

const pools: Pool<string, unknown>[] = [];
afterEach(() => Promise.all(pools.splice(0).map((pool) => pool.close())));

function unruly(size = 1): Pool<string, unknown> {
  const pool = createPool<string, unknown>({ size, start: () => new Worker(UNRULY, { eval: true }) });
  pools.push(pool);
  return pool;
}

const LONG_MS = 20_000;

test('jobs are answered, and one worker serves many', async () => {
  const pool = unruly();
  expect(await pool.run('hello', LONG_MS)).toBe('hello');
  expect(await pool.run('thread', LONG_MS)).toBe(await pool.run('thread', LONG_MS));
});

test('two workers work at one time, a third job waits for a free one', async () => {
  const pool = unruly(2);
  const threads = await Promise.all([pool.run('thread', LONG_MS), pool.run('thread', LONG_MS), pool.run('thread', LONG_MS)]);
  expect(new Set(threads).size).toBe(2);
});

test('an input error crosses the thread with its code, place and words', async () => {
  await expect(unruly().run('refuse', LONG_MS)).rejects.toMatchObject({ name: 'InputError', code: 'bad-value', place: { file: 'x.musicxml', bar: '12a' }, message: 'A note has no length.' });
});

test('a fault of the program is told apart from bad input', async () => {
  await expect(unruly().run('fault', LONG_MS)).rejects.toMatchObject({ name: 'WorkerFault', kind: 'fault', message: 'TypeError: somewhere' });
});

test.each(['exit', 'throw'])('a worker that dies (%s) loses only its job; the next one gets a fresh worker', async (death) => {
  const pool = unruly();
  const before = await pool.run('thread', LONG_MS);
  const [lost, waiting] = await Promise.allSettled([pool.run(death, LONG_MS), pool.run('thread', LONG_MS)]);
  expect(lost).toMatchObject({ status: 'rejected', reason: { name: 'WorkerFault', kind: 'crashed' } });
  expect(waiting.status).toBe('fulfilled');
  expect(waiting).not.toMatchObject({ value: before });
});

test('a hang is ended at its time limit, and the pool goes on', async () => {
  const pool = unruly();
  const started = performance.now();
  await expect(pool.run('hang', 300)).rejects.toMatchObject({ name: 'WorkerFault', kind: 'too-slow' });
  // far less than forever; the limit itself, a thread's start and a busy machine
  expect(performance.now() - started).toBeLessThan(10_000);
  expect(await pool.run('hello', LONG_MS)).toBe('hello');
});

test('waiting does not count towards the time limit', async () => {
  const pool = unruly();
  // each takes 50 ms or so; together they take longer than one may, but none alone does
  await pool.run('hello', LONG_MS);
  const all = Array.from({ length: 8 }, () => pool.run('slow', 300));
  expect(await Promise.all(all)).toEqual(Array.from({ length: 8 }, () => 'slow'));
});

test('closing rejects what is not done, and later jobs', async () => {
  const pool = unruly();
  const hanging = pool.run('hang', LONG_MS);
  const waiting = pool.run('hello', LONG_MS);
  const settled = Promise.allSettled([hanging, waiting]);
  await pool.close();
  for (const result of await settled) expect(result).toMatchObject({ status: 'rejected', reason: { kind: 'closed' } });
  await expect(pool.run('hello', LONG_MS)).rejects.toMatchObject({ kind: 'closed' });
});

test.each([0, 0.5])('a pool of %s workers is our own misuse', (size) => {
  expect(() => createPool({ size, start: () => new Worker('', { eval: true }) })).toThrow(RangeError);
});
