import { readFileSync } from 'node:fs';
import { createServer, request as send, type IncomingHttpHeaders } from 'node:http';
import { onTestFinished } from 'vitest';
import { barGrid } from '../../src/engrave/index.js';
import { analyseTogether, readTogether, type Pipeline, type SourceFile } from '../../src/pipeline/index.js';
import { readScore, type Score } from '../../src/score/index.js';
import { openStore, type Store } from '../../src/store/index.js';
import { createApp, type AppParts } from '../../src/web/index.js';
import { ownFolder } from '../store/folder.js';

/** What came back. */
export interface Answer {
  readonly status: number;
  readonly headers: IncomingHttpHeaders;
  readonly body: string;
}

/** What is sent. */
export interface Call {
  readonly method?: string;
  readonly headers?: Readonly<Record<string, string>>;
  readonly body?: string | Uint8Array;
}

/** A room that can be called. */
export interface TestRoom {
  /** The app itself, for looking at its routes. */
  readonly app: ReturnType<typeof createApp>;
  readonly store: Store;
  readonly log: readonly string[];
  /** "http://127.0.0.1:40123". */
  readonly address: string;
  call(path: string, call?: Call): Promise<Answer>;
  /** Sends a form as a browser does from a page of the room. */
  post(path: string, fields: Readonly<Record<string, string>>, headers?: Readonly<Record<string, string>>): Promise<Answer>;
}

/** Reads in the caller's own thread, and draws the bar grid in place of the engraving: quick, and all that routes need. */
export function plainPipeline(): Pipeline {
  return {
    score: (file) => Promise.resolve().then(() => read(file)),
    analysis: (file) => Promise.resolve().then(() => analyseTogether(file).analysis),
    reading: (score, recording) => Promise.resolve().then(() => readTogether(score, recording)),
    engraving: (file, widthPx) => Promise.resolve().then(() => barGrid(read(file), { widthPx, reason: 'no engraver in this test' })),
    forget: () => Promise.resolve(),
    close: () => Promise.resolve(),
  };
}

/** Reads a score, the part that is asked for. */
function read(file: SourceFile): Score {
  return readScore(file.bytes, { fileName: file.name, ...(file.part === undefined ? {} : { part: file.part }) });
}

/** A sample file of the demo room, invented. */
export function sample(path: string): { name: string; bytes: Uint8Array } {
  return { name: path.split('/').pop() ?? path, bytes: readFileSync(new URL(`../../sample-recordings/${path}`, import.meta.url)) };
}

export const ROWING_HOME = 'rowing-home/score.musicxml';
export const MEI_OCTOBER = 'rowing-home/mei-castellow-2025-10-07.mid';

/** Address of the furnished room's one recording. */
export const REVIEW = '/pupils/mei-castellow/recordings/1';

/** An empty room on a port of its own, closed after the test. */
export async function openTestRoom(pipeline: Pipeline = plainPipeline(), others: Pick<AppParts, 'door' | 'now'> = {}): Promise<TestRoom> {
  const now = others.now ?? ((): Date => new Date('2025-10-08T12:00:00'));
  const store = openStore(ownFolder(), { busyTimeoutMs: 50, now });
  const log: string[] = [];
  const app = createApp({ store, pipeline, log: (line) => log.push(line), ...others, now });
  const server = createServer(app);
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  onTestFinished(async () => {
    server.closeAllConnections();
    await new Promise((resolve) => server.close(resolve));
    store.close();
  });
  const address = server.address();
  const port = typeof address === 'object' && address !== null ? address.port : 0;
  const call = (path: string, options: Call = {}) => callPort(port, path, options);
  const post: TestRoom['post'] = (path, fields, headers = {}) =>
    call(path, { method: 'POST', body: new URLSearchParams(fields).toString(), headers: { 'content-type': 'application/x-www-form-urlencoded', ...headers } });
  return { app, store, log, address: `http://127.0.0.1:${port}`, call, post };
}

/** A room with one pupil, one piece and one recording. */
export async function openFurnishedRoom(names: { pupil?: string; title?: string; line?: string } = {}): Promise<TestRoom> {
  const room = await openTestRoom();
  const pupil = room.store.addPupil(names.pupil ?? 'Mei Castellow');
  const piece = room.store.addPiece({ title: names.title ?? 'Rowing Home', score: sample(ROWING_HOME) });
  const scoreId = room.store.scoreOfPiece(piece.id).id;
  room.store.addRecording({ pupilId: pupil.id, scoreId, file: sample(MEI_OCTOBER), line: names.line ?? 'once through', receivedAt: '2025-10-07T20:15:00' });
  return room;
}

/** A multipart body (RFC 7578), so that a test sees what is sent. */
export function multipart(parts: readonly { name: string; value?: string; file?: { name: string; bytes: Uint8Array } }[]): { body: Uint8Array; headers: Record<string, string> } {
  const boundary = 'barwise-test-boundary';
  const chunks = parts.flatMap(({ name, value, file }) => {
    const disposition = `form-data; name="${name}"${file === undefined ? '' : `; filename="${file.name}"`}`;
    return [Buffer.from(`--${boundary}\r\nContent-Disposition: ${disposition}\r\n\r\n`), Buffer.from(file?.bytes ?? value ?? ''), Buffer.from('\r\n')];
  });
  return { body: Buffer.concat([...chunks, Buffer.from(`--${boundary}--\r\n`)]), headers: { 'content-type': `multipart/form-data; boundary=${boundary}` } };
}

/** The value of a hidden field in a page. */
export function fieldIn(page: string, name: string): string {
  return new RegExp(`name="${name}" value="([^"]*)"`).exec(page)?.[1] ?? '';
}

function callPort(port: number, path: string, { method = 'GET', headers = {}, body }: Call): Promise<Answer> {
  return new Promise((resolve, reject) => {
    // a connection of its own: one that is kept may be closed while this process is busy
    const outgoing = send({ host: '127.0.0.1', port, path, method, agent: false, headers: { ...headers } }, (incoming) => {
      const chunks: Buffer[] = [];
      incoming.on('data', (chunk: Buffer) => chunks.push(chunk));
      incoming.on('end', () => resolve({ status: incoming.statusCode ?? 0, headers: incoming.headers, body: Buffer.concat(chunks).toString('utf8') }));
    });
    outgoing.on('error', reject);
    outgoing.end(body);
  });
}
