/**
 * The server killed in the middle of what it does (SIGKILL, as a power cut would), sixty times: while files come in, while they are
 * analysed, while comments are saved. Whatever it had answered "done" to must be there and whole, and the next start must be a
 * start like any other.
 */
import { spawn, type ChildProcessByStdio } from 'node:child_process';
import { createHash, randomUUID } from 'node:crypto';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Readable } from 'node:stream';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { seededRandom } from '../../src/base/index.js';
import { openDatabase } from '../../src/store/driver.js';
import { openStore } from '../../src/store/index.js';
import { readGlance } from '../../src/web/glance.js';
import { ownFolder } from '../store/folder.js';
import { MEI_OCTOBER, multipart, ROWING_HOME, sample } from './room.js';

const PROGRAM = fileURLToPath(new URL('../../dist/cli.js', import.meta.url));

/** Rooms at a time, and how often each is killed: sixty in all. */
const ROOMS = 3;
const KILLS_A_ROOM = 20;

/** Steps of an upload, in the room's own words, at which the server is killed; the last one after it was filed. */
const STEPS = ['received', 'reading the score', 'matching its notes', 'Filed'] as const;

/** The server is killed within this time after a step was told, or after the first comment went out, ms. */
const LATEST_MS = 150;

/** What was answered with "done". */
interface Acknowledged {
  /** Comments by their key: the texts sent, and how many of them were acknowledged. */
  readonly comments: Map<string, { readonly texts: string[]; done: number }>;
  /** SHA-256 of recordings. */
  readonly recordings: Set<string>;
}

/** A server that is a process of its own. */
type Server = ChildProcessByStdio<null, Readable, Readable>;

/** Starts one, and says its address. */
async function start(folder: string): Promise<{ readonly server: Server; readonly address: string }> {
  const server = spawn(process.execPath, [PROGRAM, 'room', '--port', '0', '--data', folder], { stdio: ['ignore', 'pipe', 'pipe'] });
  const address = await new Promise<string>((resolve, reject) => {
    const listen = (chunk: Buffer): void => {
      const found = /http:\/\/[\d.]+:\d+/.exec(String(chunk))?.[0];
      if (found !== undefined) resolve(found);
    };
    server.stdout.on('data', listen);
    server.stderr.on('data', listen);
    server.once('exit', (code) => reject(new RangeError(`the server ended with ${code ?? 'a signal'}`)));
  });
  return { server, address };
}

/** Ends a process at once, and waits until it is gone. */
async function kill(server: Server): Promise<void> {
  const gone = new Promise((resolve) => server.once('exit', resolve));
  server.kill('SIGKILL');
  await gone;
}

/** A recording that no other is like: one more chunk of an unknown kind, which a reader passes over (MIDI 1.0 file specification). */
function takeNumber(at: string): { readonly name: string; readonly bytes: Uint8Array } {
  const mark = Buffer.from(at.padEnd(16));
  return { name: `mei ${at}.mid`, bytes: Buffer.concat([sample(MEI_OCTOBER).bytes, Buffer.from('XXXX'), Buffer.from([0, 0, 0, mark.length]), mark]) };
}

/** Puts one recording in; it counts once it is said to be filed. @param reached hears when the step is told */
async function upload(address: string, known: Acknowledged, { at, step, reached }: { readonly at: string; readonly step: string; readonly reached: () => void }): Promise<void> {
  const file = takeNumber(at);
  const { body, headers } = multipart([{ name: 'recordings', file }, { name: 'pupil', value: 'mei-castellow' }, { name: 'piece', value: 'rowing-home' }]);
  const { body: lines } = await fetch(`${address}/files`, { method: 'POST', body: Buffer.from(body), headers: { ...headers, accept: 'application/x-ndjson' } });
  for await (const chunk of lines ?? []) {
    const told = Buffer.from(chunk).toString('utf8');
    if (told.includes('Filed')) known.recordings.add(createHash('sha256').update(file.bytes).digest('hex'));
    if (told.includes(step)) reached();
  }
}

/** Writes at one comment, as a page does that saves while one types. */
async function write(address: string, known: Acknowledged): Promise<void> {
  const comment = { texts: [] as string[], done: 0 };
  const key = randomUUID();
  known.comments.set(key, comment);
  for (let n = 1; n <= 40; n++) {
    comment.texts.push(`Slower, ${'and slower '.repeat(n)}`.trim());
    const fields = new URLSearchParams({ key, whole: 'yes', text: comment.texts.at(-1) ?? '' });
    const { ok } = await fetch(`${address}/pupils/mei-castellow/recordings/1/comments`, { method: 'POST', body: fields, headers: { accept: 'application/json' } });
    if (ok) comment.done = n;
  }
}

/** Everything that was acknowledged is there, and everything that is there is whole. */
function check(folder: string, known: Acknowledged): void {
  const database = openDatabase(join(folder, 'barwise.sqlite'));
  expect(database.get('PRAGMA integrity_check')).toEqual({ integrity_check: 'ok' });
  expect(database.all('PRAGMA foreign_key_check')).toEqual([]);
  for (const [key, { texts, done }] of known.comments) {
    const rows = database.all('SELECT comments.id, text FROM comments JOIN comment_versions AS latest ON latest.id = (SELECT max(id) FROM comment_versions WHERE comment_id = comments.id) WHERE idempotency_key = ?', [key]);
    expect(rows.length).toBeLessThanOrEqual(1);
    // the last one on its way may have been kept or not
    if (done > 0) expect([texts[done - 1], texts[done]]).toContain(rows[0]?.['text']);
  }
  for (const { file } of database.all('SELECT file FROM recordings').map((row) => ({ file: String(row['file']) }))) expect(existsSync(join(folder, 'files', file)), file).toBe(true);
  for (const file of known.recordings) expect(database.all('SELECT id FROM recordings WHERE file = ?', [file])).toHaveLength(1);
  for (const row of database.all('SELECT body FROM glances')) expect(readGlance(String(row['body']))).not.toBeNull();
  database.close();
  for (const name of readdirSync(join(folder, 'files')).filter((each) => !each.endsWith('.part'))) {
    expect(createHash('sha256').update(readFileSync(join(folder, 'files', name))).digest('hex')).toBe(name);
  }
}

/** One room, killed again and again. @returns how much was acknowledged in all */
async function killAgainAndAgain(seed: number): Promise<Acknowledged> {
  const folder = ownFolder();
  const store = openStore(folder);
  store.addRecording({ pupilId: store.addPupil('Mei Castellow').id, scoreId: store.scoreOfPiece(store.addPiece({ title: 'Rowing Home', score: sample(ROWING_HOME) }).id).id, file: sample(MEI_OCTOBER), line: '' });
  store.close();
  const known: Acknowledged = { comments: new Map(), recordings: new Set() };
  const random = seededRandom(seed);
  for (let n = 0; n < KILLS_A_ROOM; n++) {
    const { server, address } = await start(folder);
    // a third each: an upload and its analysis, comments, both at once
    const work: Promise<void>[] = [];
    if (n % 3 !== 0) work.push(write(address, known));
    if (n % 3 !== 1) {
      const step = STEPS[Math.floor(random() * STEPS.length)] ?? 'Filed';
      await new Promise<void>((reached) => work.push(upload(address, known, { at: `${seed}-${n}`, step, reached })));
    }
    const over = Promise.allSettled(work);
    await new Promise((resolve) => setTimeout(resolve, LATEST_MS * random()));
    await kill(server);
    await over;
    check(folder, known);
  }
  return known;
}

describe.skipIf(!existsSync(PROGRAM))('a server killed in the middle', () => {
  it('sixty times has everything that it had acknowledged, whole', async () => {
    const rooms = await Promise.all(Array.from({ length: ROOMS }, (_, i) => killAgainAndAgain(i + 1)));
    // the test would pass on nothing: some of each kind must have been acknowledged before a kill
    expect(rooms.flatMap(({ comments }) => [...comments.values()]).reduce((sum, { done }) => sum + done, 0)).toBeGreaterThan(ROOMS * KILLS_A_ROOM);
    expect(rooms.reduce((sum, { recordings }) => sum + recordings.size, 0)).toBeGreaterThan(0);
  }, 240_000);
});
