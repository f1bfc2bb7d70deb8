import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { InputError } from '../base/index.js';
import { putBack, takeArchive, type Archive } from './archive.js';
import * as arrivals from './arrivals.js';
import * as comments from './comments.js';
import type { StoreContext } from './context.js';
import * as decisions from './decisions.js';
import { openDatabase, type Database } from './driver.js';
import { erase, type ErasableTable } from './erase.js';
import { keepFilesIn } from './files.js';
import * as glances from './glances.js';
import { house, type House } from './house.js';
import { migrate } from './migrations.js';
import * as pieces from './pieces.js';
import { PRIVATE_FOLDER, privateFile } from './privacy.js';
import * as pupils from './pupils.js';
import * as recordings from './recordings.js';
import { tallies, type Tally } from './tally.js';
import { textsWritten } from './texts.js';
import type { Arrival, Comment, CommentVersion, FiledComment, FiledRecording, KeptFile, Lesson, NewComment, Piece, Pupil, StoredRecording, StoredScore } from './types.js';
import { unsaved, unusable } from './unusable.js';

/**
 * Everything that is kept. Calls are synchronous; when a writing call returns, its change is on
 * the disk; where the disk or the database does not take it, it throws an InputError, code `not-saved`.
 */
export interface Store extends House {
  /** The data folder. */
  readonly folder: string;
  addPupil(name: string, options?: pupils.PupilOptions): Pupil;
  /** By name; those taken off the lists where asked for. */
  pupils(which?: { readonly removed?: boolean }): readonly Pupil[];
  /** The pupil at an address, on the lists or taken off them. */
  pupil(slug: string): Pupil | null;
  renamePupil(id: number, name: string): Pupil;
  /** Says when a pupil comes each week; null where there is no fixed day. */
  setLesson(id: number, lesson: Lesson | null): Pupil;
  /** Says in which year a pupil was born; null forgets it. @throws InputError code `bad-value` */
  setBorn(id: number, born: number | null): Pupil;
  removePupil(id: number): Pupil;
  restorePupil(id: number): Pupil;
  addPiece(piece: pieces.NewPiece): Piece;
  pieces(): readonly Piece[];
  piece(slug: string): Piece | null;
  /** The newest score of a piece. */
  scoreOfPiece(pieceId: number): StoredScore;
  /** Every score that a piece has had, the newest first. */
  scoresOfPiece(pieceId: number): readonly StoredScore[];
  /** Puts in a newer score of a piece. */
  addScore(pieceId: number, score: pieces.IncomingFile): StoredScore;
  score(id: number): StoredScore;
  /** Says which part of a score is read, by its id; null lets the piano be found again. */
  choosePart(scoreId: number, part: string | null): StoredScore;
  addRecording(recording: recordings.NewRecording): recordings.Filing;
  recording(id: number): FiledRecording | null;
  recordings(listing?: recordings.Listing): readonly FiledRecording[];
  countRecordings(listing?: recordings.Listing): number;
  /** The pupil's recording of the same piece before this one, or null. */
  recordingBefore(recording: StoredRecording): StoredRecording | null;
  setHeard(id: number, heard: boolean): FiledRecording;
  /** Says anew what a recording holds. */
  setLine(id: number, line: string): void;
  removeRecording(id: number): FiledRecording;
  restoreRecording(id: number): FiledRecording;
  /** Says that a recording is another pupil's, or was read against another score. */
  moveRecording(id: number, to: { readonly pupilId: number; readonly scoreId: number; readonly line: string }): FiledRecording;
  /** What the desk says of a recording, or null where it was not made yet. */
  glance(recordingId: number): glances.KeptGlance | null;
  keepGlance(recordingId: number, glance: glances.KeptGlance): void;
  /** Lets a file wait until somebody says whose it is. */
  addArrival(arrival: arrivals.NewArrival): Arrival;
  arrivals(): readonly Arrival[];
  arrival(id: number): Arrival | null;
  setAside(id: number, aside: boolean): void;
  endArrival(id: number): void;
  /** Says what a recording is for; null lets it be guessed again. */
  setPurpose(id: number, purpose: string | null): FiledRecording;
  /** The bytes of a kept file, as they came. @throws InputError code `not-found`, naming it, where it has gone */
  bytesOf(file: KeptFile): Uint8Array;
  addComment(comment: NewComment): Comment;
  editComment(id: number, text: string): Comment;
  removeComment(id: number): Comment;
  restoreComment(id: number): Comment;
  comment(id: number): Comment | null;
  comments(recordingId: number): readonly Comment[];
  commentVersions(id: number): readonly CommentVersion[];
  setSettled(id: number, settled: boolean): Comment;
  /** All comments on a pupil's recordings, newest first. */
  commentsOfPupil(pupilId: number): readonly FiledComment[];
  /** What waits of every pupil who has sent anything. */
  tallies(): readonly Tally[];
  /** What every comment says now, the newest first. */
  textsWritten(): readonly string[];
  addDecision(scope: decisions.DecisionScope, decision: decisions.Decision): decisions.StoredDecision;
  removeDecision(id: number): decisions.StoredDecision;
  restoreDecision(id: number): decisions.StoredDecision;
  /** Decisions that hold for a pupil at a piece, oldest first. */
  decisionsFor(of: decisions.DecidedFor): readonly decisions.StoredDecision[];
  /** Deletes for good, with all that belongs to it; names the files that have gone, by their SHA-256. */
  erase(table: ErasableTable, id: number): readonly string[];
  /** All rows, for carrying the room to another computer. */
  takeArchive(): Archive;
  /** Keeps files, then puts an archive in the place of everything. @throws InputError, nothing having changed */
  putBack(archive: unknown, files: Iterable<Uint8Array>): void;
  close(): void;
}

/** How to open a store. */
export interface StoreOptions {
  /** Clock; the machine's where left out. */
  readonly now?: () => Date;
  /** How long a call waits for another program that is just writing, ms; five seconds where left out. */
  readonly busyTimeoutMs?: number;
}

/** Database and original files stand beside each other in the data folder. */
const DATABASE_FILE = 'barwise.sqlite';
const FILES_FOLDER = 'files';

/**
 * Opens the store in a folder, making what is missing and bringing its tables up to date.
 * @throws InputError code `unsupported` where a newer program has written it, or the folder cannot be used
 */
export function openStore(folder: string, options: StoreOptions = {}): Store {
  const now = options.now ?? (() => new Date());
  const context: StoreContext = { ...openFolder(folder, { now: now(), busyTimeoutMs: options.busyTimeoutMs }), now };
  const { database } = context;
  return { folder, ...peopleAndPieces(context), ...recordingsAndComments(context), ...house(context, writing), ...carrying(context), close: () => database.close() };
}

/** Folder, files and database, the tables up to date; on failure nothing stays open. */
function openFolder(folder: string, { now, busyTimeoutMs }: { readonly now: Date; readonly busyTimeoutMs: number | undefined }): Pick<StoreContext, 'database' | 'files'> {
  let database: Database | null = null;
  try {
    mkdirSync(folder, { recursive: true, mode: PRIVATE_FOLDER });
    const files = keepFilesIn(join(folder, FILES_FOLDER), now);
    // the database makes its side files with the rights of its own
    privateFile(join(folder, DATABASE_FILE));
    database = openDatabase(join(folder, DATABASE_FILE), busyTimeoutMs);
    migrate(database);
    return { database, files };
  } catch (error) {
    database?.close();
    throw unusable(folder, error);
  }
}

/** The part of the store about pupils and pieces. */
function peopleAndPieces(context: StoreContext): Pick<Store, 'addPupil' | 'pupils' | 'pupil' | 'renamePupil' | 'setLesson' | 'setBorn' | 'removePupil' | 'restorePupil' | 'addPiece' | 'pieces' | 'piece' | 'scoreOfPiece' | 'scoresOfPiece' | 'addScore' | 'score' | 'choosePart'> {
  return {
    addPupil: (name, options) => writing(() => pupils.addPupil(context, name, options)),
    pupils: (which) => pupils.allPupils(context, which),
    pupil: (slug) => pupils.pupilBySlug(context, slug),
    renamePupil: (id, name) => writing(() => pupils.renamePupil(context, id, name)),
    setLesson: (id, lesson) => writing(() => pupils.setLesson(context, id, lesson)),
    setBorn: (id, born) => writing(() => pupils.setBorn(context, id, born)),
    removePupil: (id) => writing(() => pupils.removePupil(context, id)),
    restorePupil: (id) => writing(() => pupils.restorePupil(context, id)),
    addPiece: (piece) => writing(() => pieces.addPiece(context, piece)),
    pieces: () => pieces.allPieces(context),
    piece: (slug) => pieces.pieceBySlug(context, slug),
    scoreOfPiece: (pieceId) => pieces.scoreOfPiece(context, pieceId),
    scoresOfPiece: (pieceId) => pieces.scoresOfPiece(context, pieceId),
    addScore: (pieceId, score) => writing(() => pieces.addScore(context, pieceId, score)),
    score: (id) => pieces.scoreById(context, id),
    choosePart: (scoreId, part) => writing(() => pieces.choosePart(context, scoreId, part)),
  };
}

/** The part of the store about the room as a whole: away for good, and to another computer. */
function carrying(context: StoreContext): Pick<Store, 'erase' | 'takeArchive' | 'putBack'> {
  return {
    erase: (table, id) => writing(() => erase(context, table, id)),
    takeArchive: () => takeArchive(context),
    putBack: (archive, files) => writing(() => putBack(context, archive, files)),
  };
}

/** The part of the store about recordings and what is written of them. */
function recordingsAndComments(
  context: StoreContext,
): Omit<Store, 'folder' | 'close' | keyof House | keyof ReturnType<typeof carrying> | keyof ReturnType<typeof peopleAndPieces>> {
  return {
    addRecording: (recording) => writing(() => recordings.addRecording(context, recording)),
    recording: (id) => recordings.filedRecording(context, id),
    recordings: (listing) => recordings.filedRecordings(context, listing),
    countRecordings: (listing) => recordings.countRecordings(context, listing),
    recordingBefore: (recording) => recordings.recordingBefore(context, recording),
    setLine: (id, line) => writing(() => recordings.setLine(context, id, line)),
    setHeard: (id, heard) => writing(() => recordings.setHeard(context, id, heard)),
    removeRecording: (id) => writing(() => recordings.removeRecording(context, id)),
    restoreRecording: (id) => writing(() => recordings.restoreRecording(context, id)),
    moveRecording: (id, to) => writing(() => recordings.moveRecording(context, id, to)),
    glance: (recordingId) => glances.glanceAt(context, recordingId),
    keepGlance: (recordingId, glance) => writing(() => glances.keepGlance(context, recordingId, glance)),
    addArrival: (arrival) => writing(() => arrivals.addArrival(context, arrival)),
    arrivals: () => arrivals.allArrivals(context),
    arrival: (id) => arrivals.arrivalById(context, id),
    setAside: (id, aside) => writing(() => arrivals.setAside(context, id, aside)),
    endArrival: (id) => writing(() => arrivals.endArrival(context, id)),
    setPurpose: (id, purpose) => writing(() => recordings.setPurpose(context, id, purpose)),
    bytesOf: (file) => bytesOf(context, file),
    addComment: (comment) => writing(() => comments.addComment(context, comment)),
    editComment: (id, text) => writing(() => comments.editComment(context, id, text)),
    removeComment: (id) => writing(() => comments.removeComment(context, id)),
    restoreComment: (id) => writing(() => comments.restoreComment(context, id)),
    comment: (id) => comments.commentById(context, id),
    comments: (recordingId) => comments.commentsOf(context, recordingId),
    commentVersions: (id) => comments.versionsOf(context, id),
    setSettled: (id, settled) => writing(() => comments.setSettled(context, id, settled)),
    commentsOfPupil: (pupilId) => comments.commentsOfPupil(context, pupilId),
    tallies: () => tallies(context),
    textsWritten: () => textsWritten(context),
    addDecision: (scope, decision) => writing(() => decisions.addDecision(context, scope, decision)),
    removeDecision: (id) => writing(() => decisions.removeDecision(context, id)),
    restoreDecision: (id) => writing(() => decisions.restoreDecision(context, id)),
    decisionsFor: (of) => decisions.decisionsFor(context, of),
  };
}

/** A file of the folder; where it is gone, the error has the name that it came under. */
function bytesOf(context: StoreContext, file: KeptFile): Uint8Array {
  try {
    return context.files.read(file.file);
  } catch (error) {
    throw error instanceof InputError ? error.inFile(file.fileName) : error;
  }
}

/** Does something that writes. @throws InputError code `not-saved` where disk or database do not take it */
function writing<T>(work: () => T): T {
  try {
    return work();
  } catch (error) {
    throw unsaved(error);
  }
}
