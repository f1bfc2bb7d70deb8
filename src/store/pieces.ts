/**
 * Pieces and their score files. One content is kept once, however often and under whatever name it comes.
 */
import { moment, tidyName, type StoreContext } from './context.js';
import type { Row } from './driver.js';
import { numberOf, textOf, textOrNull } from './rows.js';
import { freeSlug, slugOf } from './slug.js';
import type { KeptFile, Piece, StoredScore } from './types.js';

/** A file as it came: a name for showing, and its bytes. */
export interface IncomingFile {
  readonly name: string;
  readonly bytes: Uint8Array;
}

/** What is known of a new piece. */
export interface NewPiece {
  readonly title: string;
  readonly composer?: string;
  readonly invented?: boolean;
  readonly score: IncomingFile;
}

/**
 * Adds a piece with its first score. The file is on the disk before the rows are. The same score file again gives
 * the piece that has it.
 * @throws InputError code `empty` or `too-large` for the title
 */
export function addPiece(context: StoreContext, piece: NewPiece): Piece {
  const title = tidyName(piece.title, 'title of the piece');
  const kept = keep(context, piece.score);
  return context.database.together(() => {
    const known = pieceByScoreFile(context, kept.file);
    // one taken off the lists comes back with its score
    if (known !== null) context.database.run('UPDATE pieces SET removed_at = NULL WHERE id = ?', [known.id]);
    return known ?? insertPiece(context, { ...piece, title }, kept);
  });
}

/**
 * Puts in a newer score of a piece; recordings stay with the one they were read against. The score that is the newest
 * already is not put in again. The file is on the disk before its row is.
 */
export function addScore(context: StoreContext, pieceId: number, file: IncomingFile): StoredScore {
  const kept = keep(context, file);
  return context.database.together(() => {
    const newest = scoreOfPiece(context, pieceId);
    if (newest.file === kept.file) return newest;
    insertScore(context, pieceId, kept);
    return scoreOfPiece(context, pieceId);
  });
}

/** Every score that a piece has had, the newest first. */
export function scoresOfPiece(context: StoreContext, pieceId: number): readonly StoredScore[] {
  return context.database.all('SELECT * FROM scores WHERE piece_id = ? ORDER BY id DESC', [pieceId]).map(scoreOf);
}

/** The piece at an address, or null. */
export function pieceBySlug(context: StoreContext, slug: string): Piece | null {
  const row = context.database.get('SELECT * FROM pieces WHERE slug = ?', [slug]);
  return row === null ? null : pieceOf(row);
}

/** All pieces by title. */
export function allPieces(context: StoreContext): readonly Piece[] {
  const byTitle = new Intl.Collator('en-GB');
  return context.database.all('SELECT * FROM pieces WHERE removed_at IS NULL ORDER BY id').map(pieceOf).sort((a, b) => byTitle.compare(a.title, b.title));
}

/**
 * The newest score of a piece.
 * @throws RangeError where the piece has none, which cannot be
 */
export function scoreOfPiece(context: StoreContext, pieceId: number): StoredScore {
  return oneScore(context, 'SELECT * FROM scores WHERE piece_id = ? ORDER BY id DESC LIMIT 1', pieceId);
}

/** The score with this number. @throws RangeError where there is none */
export function scoreById(context: StoreContext, id: number): StoredScore {
  return oneScore(context, 'SELECT * FROM scores WHERE id = ?', id);
}

/** Says which part of a score is read; null lets the piano be found again. The part is not looked for here. */
export function choosePart(context: StoreContext, scoreId: number, part: string | null): StoredScore {
  context.database.run('UPDATE scores SET part = ? WHERE id = ?', [part, scoreId]);
  return scoreById(context, scoreId);
}

/** Keeps a file in the data folder. */
export function keep(context: StoreContext, file: IncomingFile): KeptFile {
  return { file: context.files.keep(file.bytes), fileName: tidyName(file.name, 'file’s name'), bytes: file.bytes.length };
}

/** A row as a record. */
export function pieceOf(row: Row): Piece {
  return {
    id: numberOf(row, 'id'),
    slug: textOf(row, 'slug'),
    title: textOf(row, 'title'),
    composer: textOf(row, 'composer'),
    invented: numberOf(row, 'invented') === 1,
    createdAt: textOf(row, 'created_at'),
  };
}

/** The piece that already has exactly this score file, or null. */
function pieceByScoreFile(context: StoreContext, file: string): Piece | null {
  const row = context.database.get('SELECT pieces.* FROM pieces JOIN scores ON scores.piece_id = pieces.id WHERE scores.file = ? ORDER BY pieces.id LIMIT 1', [file]);
  return row === null ? null : pieceOf(row);
}

/** Both rows of a new piece. */
function insertPiece(context: StoreContext, piece: NewPiece, kept: KeptFile): Piece {
  const { database } = context;
  const slug = freeSlug(slugOf(piece.title, 'piece'), (candidate) => pieceBySlug(context, candidate) !== null);
  const { id } = database.run('INSERT INTO pieces (slug, title, composer, invented, created_at) VALUES (?, ?, ?, ?, ?)', [
    slug, piece.title, piece.composer ?? '', piece.invented === true ? 1 : 0, moment(context),
  ]);
  insertScore(context, id, kept);
  const row = database.get('SELECT * FROM pieces WHERE id = ?', [id]);
  if (row === null) throw new RangeError('no such piece');
  return pieceOf(row);
}

/** The row of a score. */
function insertScore(context: StoreContext, pieceId: number, { file, fileName, bytes }: KeptFile): void {
  context.database.run('INSERT INTO scores (piece_id, file, file_name, bytes, created_at) VALUES (?, ?, ?, ?, ?)', [pieceId, file, fileName, bytes, moment(context)]);
}

/** One score by a question with one number in it. */
function oneScore(context: StoreContext, sql: string, id: number): StoredScore {
  const row = context.database.get(sql, [id]);
  if (row === null) throw new RangeError('no such score');
  return scoreOf(row);
}

/** A row as a record. */
function scoreOf(row: Row): StoredScore {
  return {
    id: numberOf(row, 'id'),
    pieceId: numberOf(row, 'piece_id'),
    part: textOrNull(row, 'part'),
    file: textOf(row, 'file'),
    fileName: textOf(row, 'file_name'),
    bytes: numberOf(row, 'bytes'),
    createdAt: textOf(row, 'created_at'),
  };
}
