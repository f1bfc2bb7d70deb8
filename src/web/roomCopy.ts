/**
 * Copies to take away: the whole room, or everything of one pupil. The originals as they came, tables that any spreadsheet
 * opens, and the rows themselves; only the rows and the originals are needed to put a room back.
 */
import { Zip, ZipDeflate } from 'fflate';
import { InputError } from '../base/index.js';
import type { Arrival, FiledRecording, KeptFile, Piece, Pupil, Store, StoredScore } from '../store/index.js';
import { csvOf } from './csv.js';
import { printedBars } from './pupilPage.js';

/** Name of the rows within a copy. */
export const ROWS_FILE = 'room.json';

/** A file within a copy; its bytes are read when its turn comes. */
interface Entry {
  readonly path: string;
  readonly bytes: () => Uint8Array;
}

/** Most characters of a name within a copy. */
const LONGEST_PATH_PART = 80;

/** How much a copy is packed: files that are packed already gain nothing, and MIDI files are small. */
const LEVEL = 6;

/** The whole room. */
export function copyOfRoom(store: Store): readonly Entry[] {
  const recordings = [...store.recordings(), ...store.recordings({ removed: true })];
  const archive = store.takeArchive();
  const asides = kept(archive.tables['recordings'] ?? []).concat(kept(archive.tables['arrivals'] ?? []), kept(archive.tables['scores'] ?? []));
  const listed = new Map([...scoreEntries(store, store.pieces()), ...recordings.map((one) => recordingEntry(store, one)), ...store.arrivals().map((one) => arrivalEntry(store, one))].map((entry) => [entry.file, entry]));
  const rest = asides.filter(({ file }) => !listed.has(file)).map((one): Entry => ({ path: `other/${safe(one.file.slice(0, 12))} ${safe(one.fileName)}`, bytes: () => store.bytesOf(one) }));
  return [text(ROWS_FILE, JSON.stringify(archive)), ...tables(store, recordings), ...listed.values(), ...rest];
}

/** Everything of one pupil, in a form that other programs read. */
export function copyOfPupil(store: Store, pupil: Pupil): readonly Entry[] {
  const recordings = [...store.recordings({ pupilId: pupil.id }), ...store.recordings({ pupilId: pupil.id, removed: true })];
  const scores = [...new Map(recordings.map(({ scoreId, piece }) => [scoreId, { score: store.score(scoreId), piece }])).values()];
  const written = recordings.map((recording) => ({
    piece: recording.piece.title,
    receivedAt: recording.receivedAt,
    line: recording.line,
    purpose: recording.purpose,
    file: recording.fileName,
    comments: store.comments(recording.id).map((comment) => ({ about: printedBars(comment), settledAt: comment.settledAt, texts: store.commentVersions(comment.id) })),
  }));
  const json = JSON.stringify({ format: 'barwise-pupil/1', name: pupil.name, lesson: pupil.lesson, createdAt: pupil.createdAt, recordings: written }, null, 2);
  return [text('pupil.json', json), ...tables(store, recordings), ...scores.map(({ score, piece }) => scoreEntry(store, score, piece)), ...recordings.map((one) => recordingEntry(store, one))];
}

/** Packs a copy, one file after another, so that pages are served in between. @param write takes each piece; it is told when the last one came */
export async function pack(entries: readonly Entry[], write: (chunk: Uint8Array, last: boolean) => void): Promise<void> {
  const zip = new Zip((error, chunk, last) => {
    if (error !== null) throw error;
    write(chunk, last);
  });
  for (const { path, bytes } of entries) {
    const content = orNothing(bytes);
    if (content === null) continue;
    const entry = new ZipDeflate(path, { level: LEVEL });
    zip.add(entry);
    entry.push(content, true);
    await new Promise((resolve) => setImmediate(resolve));
  }
  zip.end();
}

/** The bytes of a file, or null where it has gone from the folder: the others are worth taking all the same. */
function orNothing(bytes: () => Uint8Array): Uint8Array | null {
  try {
    return bytes();
  } catch (error) {
    if (error instanceof InputError) return null;
    throw error;
  }
}

/** Recordings and comments as tables. */
function tables(store: Store, recordings: readonly FiledRecording[]): readonly Entry[] {
  const came = recordings.map((one) => [one.pupil.name, one.piece.title, one.receivedAt, one.line, one.fileName]);
  const said = recordings.flatMap((one) => store.comments(one.id).map((comment) => [one.pupil.name, one.piece.title, one.receivedAt, printedBars(comment), comment.text, comment.createdAt, comment.settledAt ?? '']));
  return [
    text('recordings.csv', csvOf(['pupil', 'piece', 'received', 'what it holds', 'file'], came)),
    text('comments.csv', csvOf(['pupil', 'piece', 'received', 'about', 'comment', 'written', 'settled'], said)),
  ];
}

/** An entry that knows which file it holds. */
type FileEntry = Entry & Pick<KeptFile, 'file'>;

/** Every version of the score of every piece. */
function scoreEntries(store: Store, pieces: readonly Piece[]): readonly FileEntry[] {
  return pieces.flatMap((piece) => store.scoresOfPiece(piece.id).map((score) => scoreEntry(store, score, piece)));
}

/** One score. */
function scoreEntry(store: Store, score: StoredScore, piece: Piece): FileEntry {
  return { file: score.file, path: `scores/${safe(piece.slug)}/${score.id} ${safe(score.fileName)}`, bytes: () => store.bytesOf(score) };
}

/** One recording. */
function recordingEntry(store: Store, one: FiledRecording): FileEntry {
  return { file: one.file, path: `recordings/${safe(one.pupil.slug)}/${safe(one.piece.slug)}/${one.receivedAt.slice(0, 10)} ${one.id} ${safe(one.fileName)}`, bytes: () => store.bytesOf(one) };
}

/** One file that waits. */
function arrivalEntry(store: Store, one: Arrival): FileEntry {
  return { file: one.file, path: `waiting/${one.id} ${safe(one.fileName)}`, bytes: () => store.bytesOf(one) };
}

/** Files that rows speak of. */
function kept(rows: readonly Readonly<Record<string, unknown>>[]): readonly KeptFile[] {
  return rows.map((row) => ({ file: String(row['file']), fileName: String(row['file_name']), bytes: Number(row['bytes']) }));
}

/** A name as a part of a path: nothing that leads elsewhere, nothing that a system forbids. */
function safe(name: string): string {
  return Array.from(name.replace(/[^\p{L}\p{N}._ -]+/gu, '_').replace(/^[. ]+|[. ]+$/g, '')).slice(0, LONGEST_PATH_PART).join('') || 'file';
}

/** A text as an entry. */
function text(path: string, content: string): Entry {
  return { path, bytes: () => new TextEncoder().encode(content) };
}
