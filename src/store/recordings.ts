/**
 * Recordings as they were filed. A recording belongs to the score file it was read against, not just to the
 * piece, so that a better edition put in later does not move what was written about bars.
 */
import { moment, type StoreContext } from './context.js';
import type { Row } from './driver.js';
import { keep, pieceOf, type IncomingFile } from './pieces.js';
import { pupilOf } from './pupils.js';
import { numberOf, textOf, textOrNull } from './rows.js';
import type { FiledRecording, StoredRecording } from './types.js';

/** A recording about to be filed. */
export interface NewRecording {
  readonly pupilId: number;
  readonly scoreId: number;
  readonly file: IncomingFile;
  /** What it holds, in one line of words. */
  readonly line: string;
  /** When it came in; now where left out. */
  readonly receivedAt?: string;
}

/** A recording that was filed, and whether it had been there before. */
export interface Filing {
  readonly recording: StoredRecording;
  /** True where this pupil had already sent exactly this file. */
  readonly known: boolean;
}

/**
 * Files a recording. The file is on the disk before the row is; the same file of the same pupil
 * is filed once.
 */
export function addRecording(context: StoreContext, recording: NewRecording): Filing {
  const { database } = context;
  const kept = keep(context, recording.file);
  return database.together(() => {
    const known = database.get('SELECT * FROM recordings WHERE pupil_id = ? AND score_id = ? AND file = ?', [recording.pupilId, recording.scoreId, kept.file]);
    if (known !== null) return { recording: recordingOf(known), known: true };
    const { id } = database.run(
      'INSERT INTO recordings (pupil_id, score_id, file, file_name, bytes, line, received_at) VALUES (?, ?, ?, ?, ?, ?, ?)',
      [recording.pupilId, recording.scoreId, kept.file, kept.fileName, kept.bytes, recording.line, recording.receivedAt ?? moment(context)],
    );
    return { recording: oneRecording(context, id), known: false };
  });
}

/** The recording with this number and whose it is, or null. */
export function filedRecording(context: StoreContext, id: number): FiledRecording | null {
  const row = context.database.get('SELECT * FROM recordings WHERE id = ?', [id]);
  return row === null ? null : withWhoAndWhat(context, recordingOf(row));
}

/** Recordings, newest first; of one pupil or one piece where asked for. */
export function filedRecordings(context: StoreContext, of: { readonly pupilId?: number; readonly pieceId?: number } = {}): readonly FiledRecording[] {
  const rows = context.database.all(
    `SELECT recordings.* FROM recordings JOIN scores ON scores.id = recordings.score_id
     WHERE pupil_id = coalesce(?, pupil_id) AND piece_id = coalesce(?, piece_id) ORDER BY received_at DESC, recordings.id DESC`,
    [of.pupilId ?? null, of.pieceId ?? null],
  );
  return rows.map((row) => withWhoAndWhat(context, recordingOf(row)));
}

/** Says what a recording is for; null lets it be guessed again. */
export function setPurpose(context: StoreContext, id: number, purpose: string | null): FiledRecording {
  context.database.run('UPDATE recordings SET purpose = ? WHERE id = ?', [purpose, id]);
  return withWhoAndWhat(context, oneRecording(context, id));
}

/** Adds pupil, piece and number of comments. */
function withWhoAndWhat(context: StoreContext, recording: StoredRecording): FiledRecording {
  const { database } = context;
  const pupil = database.get('SELECT * FROM pupils WHERE id = ?', [recording.pupilId]);
  const piece = database.get('SELECT pieces.* FROM pieces JOIN scores ON scores.piece_id = pieces.id WHERE scores.id = ?', [recording.scoreId]);
  const comments = database.get('SELECT count(*) AS n FROM comments WHERE recording_id = ? AND removed_at IS NULL', [recording.id]);
  if (pupil === null || piece === null || comments === null) throw new RangeError('a recording without pupil or piece');
  return { ...recording, pupil: pupilOf(pupil), piece: pieceOf(piece), comments: numberOf(comments, 'n') };
}

/** The recording that was just written. */
function oneRecording(context: StoreContext, id: number): StoredRecording {
  const row = context.database.get('SELECT * FROM recordings WHERE id = ?', [id]);
  if (row === null) throw new RangeError('no such recording');
  return recordingOf(row);
}

/** A row as a record. */
function recordingOf(row: Row): StoredRecording {
  return {
    id: numberOf(row, 'id'),
    pupilId: numberOf(row, 'pupil_id'),
    scoreId: numberOf(row, 'score_id'),
    file: textOf(row, 'file'),
    fileName: textOf(row, 'file_name'),
    bytes: numberOf(row, 'bytes'),
    line: textOf(row, 'line'),
    receivedAt: textOf(row, 'received_at'),
    purpose: textOrNull(row, 'purpose'),
  };
}
