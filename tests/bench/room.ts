/**
 * How long the desk and a pupil's page take in a small and in a full room. What they would have read anew behind their backs
 * never comes to an end; glances are those of the usual size.
 */
import { createHash } from 'node:crypto';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:http';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { performance } from 'node:perf_hooks';
import type { Pipeline } from '../../src/pipeline/index.js';
import { openStore, type Store } from '../../src/store/index.js';
import { createApp } from '../../src/web/index.js';

/** Pupils, pieces and days in the room, whatever its size. */
const PUPILS = 30;
const PIECES = 20;
const DAY_MS = 86_400_000;

/** Times of one room, ms, each the middle of so many requests. */
const REQUESTS = 15;

/** What one room took. */
export interface RoomFigures {
  readonly recordings: number;
  readonly deskMs: number;
  readonly pupilMs: number;
}

/** Fills a room and asks for its pages. */
export async function roomJob(recordings: number): Promise<RoomFigures> {
  const folder = mkdtempSync(join(tmpdir(), 'barwise-bench-'));
  const store = openStore(folder);
  fill(store, recordings);
  const server = createServer(createApp({ store, pipeline: NEVER_DONE }));
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const address = server.address();
  const room = `http://127.0.0.1:${typeof address === 'object' && address !== null ? address.port : 0}`;
  try {
    return { recordings, deskMs: await middleOf(`${room}/`), pupilMs: await middleOf(`${room}/pupils/pupil-1`) };
  } finally {
    server.closeAllConnections();
    await new Promise((resolve) => server.close(resolve));
    store.close();
    rmSync(folder, { recursive: true, force: true });
  }
}

/** What is read behind the pages' backs never comes to an end here, so that the pages alone are timed. */
const NEVER_DONE: Pipeline = {
  score: () => new Promise(() => undefined),
  analysis: () => new Promise(() => undefined),
  reading: () => new Promise(() => undefined),
  engraving: () => new Promise(() => undefined),
  forget: () => Promise.resolve(),
  close: () => Promise.resolve(),
};

/** Pupils and pieces in turn, one comment a recording, half of them settled. */
function fill(store: Store, recordings: number): void {
  const pupils = Array.from({ length: PUPILS }, (_, i) => store.addPupil(`Pupil ${i + 1}`));
  pupils.forEach(({ id }, i) => store.setLesson(id, { day: (i % 7) + 1, time: '16:30' }));
  const scores = Array.from({ length: PIECES }, (_, i) => store.scoreOfPiece(store.addPiece({ title: `Piece ${i + 1}`, score: { name: 's.musicxml', bytes: Buffer.from(`score ${i}`) } }).id).id);
  for (let n = 0; n < recordings; n++) {
    const pupilId = pupils[n % PUPILS]?.id ?? 0;
    const scoreId = scores[Math.floor(n / PUPILS) % PIECES] ?? 0;
    const kept = { file: createHash('sha256').update(String(n)).digest('hex'), fileName: `take ${n}.mid`, bytes: 5000 };
    writeFileSync(join(store.folder, 'files', kept.file), String(n));
    const { recording } = store.addRecording({ pupilId, scoreId, file: kept, line: 'Once through; at the marked tempo; 2 minutes', receivedAt: new Date(Date.now() - (recordings - n) * (DAY_MS / 10)).toISOString() });
    store.keepGlance(recording.id, { madeFrom: '', body: GLANCE });
    const { id } = store.addComment({ recordingId: recording.id, key: `key ${n}`, bars: ['5', '8'], barIndexes: [5, 8], text: 'Count four semiquavers, and place the short note on the last.' });
    if (n % 2 === 0) store.setSettled(id, true);
  }
}

/** A glance of the usual size. */
const GLANCE = JSON.stringify({
  remarks: Array.from({ length: 12 }, (_, i) => ({ aspect: 'rhythm', kind: `kind${i}`, hand: 'right', bars: [[i, i + 2]], worth: i < 3, text: i < 3 ? 'Right hand, bars 5–8: the dotted pairs are even. Count four semiquavers and place the short note on the last.' : '' })),
  praise: ['Bars 23–24: both hands slowed together.'],
  played: [[0, 31]],
  bars: 32,
  names: Object.fromEntries(Array.from({ length: 16 }, (_, i) => [String(i), String(i + 1)])),
  problem: '',
});

/** The middle time of some requests, ms. */
async function middleOf(page: string): Promise<number> {
  const times: number[] = [];
  for (let n = 0; n < REQUESTS; n++) {
    const from = performance.now();
    const answer = await fetch(page);
    await answer.text();
    if (!answer.ok) throw new RangeError(`the page answered with ${answer.status}`);
    times.push(performance.now() - from);
  }
  return times.sort((a, b) => a - b)[Math.floor(times.length / 2)] ?? 0;
}
