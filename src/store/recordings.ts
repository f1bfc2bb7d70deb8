/**
 * Recordings as they were filed. A recording belongs to the score file it was read against, not just to the
 * piece, so that a better edition put in later does not move what was written about bars.
 */
import { moment, type StoreContext } from './context.js';
import type { Row } from './driver.js';
import { keep, pieceOf, type IncomingFile } from './pieces.js';
import { pupilOf } from './pupils.js';
import { numberOf, textOf, textOrNull } from './rows.js';
import type { FiledRecording, KeptFile, StoredRecording } from './types.js';

/** A recording about to be filed. */
export interface NewRecording {
  readonly pupilId: number;
  readonly scoreId: number;
  /** As it came, or where it waits already. */
  readonly file: IncomingFile | KeptFile;
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

/** Which recordings to list; all where nothing is said. */
export interface Listing {
  readonly pupilId?: number;
  readonly pieceId?: number;
  /** At most so many, the newest first. */
  readonly most?: number;
  /** Leaves out so many of the newest. */
  readonly after?: number;
  /** True for those alone that nobody has heard. */
  readonly unheard?: boolean;
  /** True for those taken off the lists, in place of those that are on them. */
  readonly removed?: boolean;
}

/**
 * Files a recording. The file is on the disk before the row is; the same file of the same pupil
 * is filed once, and one taken off the lists meanwhile comes back.
 */
export function addRecording(context: StoreContext, recording: NewRecording): Filing {
  const { database } = context;
  const kept = 'file' in recording.file ? recording.file : keep(context, recording.file);
  return database.together(() => {
    const known = database.get('SELECT * FROM recordings WHERE pupil_id = ? AND score_id = ? AND file = ?', [recording.pupilId, recording.scoreId, kept.file]);
    if (known !== null) return { recording: comeBack(context, recordingOf(known)), known: true };
    const { id } = database.run(
      'INSERT INTO recordings (pupil_id, score_id, file, file_name, bytes, line, received_at) VALUES (?, ?, ?, ?, ?, ?, ?)',
      [recording.pupilId, recording.scoreId, kept.file, kept.fileName, kept.bytes, recording.line, recording.receivedAt ?? moment(context)],
    );
    return { recording: oneRecording(context, id), known: false };
  });
}

/** The recording with this number and whose it is, or null; one taken off the lists too, unless its pupil is. */
export function filedRecording(context: StoreContext, id: number): FiledRecording | null {
  const row = context.database.get('SELECT recordings.* FROM recordings JOIN pupils ON pupils.id = pupil_id WHERE recordings.id = ? AND pupils.removed_at IS NULL', [id]);
  return row === null ? null : withWhoAndWhat(context, [recordingOf(row)])[0] ?? null;
}

/** Recordings, newest first. */
export function filedRecordings(context: StoreContext, listing: Listing = {}): readonly FiledRecording[] {
  const rows = context.database.all(
    `SELECT recordings.* FROM recordings ${LISTED} ORDER BY received_at DESC, recordings.id DESC LIMIT ? OFFSET ?`,
    [...valuesOf(listing), listing.most ?? -1, listing.after ?? 0],
  );
  return withWhoAndWhat(context, rows.map(recordingOf));
}

/** How many recordings a list would hold. */
export function countRecordings(context: StoreContext, listing: Listing = {}): number {
  const row = context.database.get(`SELECT count(*) AS n FROM recordings ${LISTED}`, valuesOf(listing));
  return row === null ? 0 : numberOf(row, 'n');
}

/** What every list of recordings asks; its values come from `valuesOf`. */
const LISTED = `JOIN scores ON scores.id = recordings.score_id JOIN pupils ON pupils.id = recordings.pupil_id
  WHERE pupil_id = coalesce(?, pupil_id) AND piece_id = coalesce(?, piece_id) AND pupils.removed_at IS NULL
    AND (recordings.removed_at IS NOT NULL) = ? AND (heard_at IS NULL) >= ?`;

/** Values for `LISTED`. */
function valuesOf({ pupilId, pieceId, removed, unheard }: Listing): readonly (number | null)[] {
  return [pupilId ?? null, pieceId ?? null, removed === true ? 1 : 0, unheard === true ? 1 : 0];
}

/** The pupil's recording of the same piece before this one, or null. */
export function recordingBefore(context: StoreContext, { id, pupilId, scoreId, receivedAt }: StoredRecording): StoredRecording | null {
  const row = context.database.get(
    `SELECT recordings.* FROM recordings JOIN scores ON scores.id = recordings.score_id
     WHERE pupil_id = ? AND removed_at IS NULL AND piece_id = (SELECT piece_id FROM scores WHERE id = ?)
       AND (received_at, recordings.id) < (?, ?)
     ORDER BY received_at DESC, recordings.id DESC LIMIT 1`,
    [pupilId, scoreId, receivedAt, id],
  );
  return row === null ? null : recordingOf(row);
}

/** Says what a recording is for; null lets it be guessed again. */
export function setPurpose(context: StoreContext, id: number, purpose: string | null): FiledRecording {
  return changed(context, id, { set: 'purpose = ?', value: purpose });
}

/** Says anew what a recording holds. */
export function setLine(context: StoreContext, id: number, line: string): void {
  context.database.run('UPDATE recordings SET line = ? WHERE id = ?', [line, id]);
}

/** Notes that a recording was heard now, or (false) that it was not. The first time stays. */
export function setHeard(context: StoreContext, id: number, heard: boolean): FiledRecording {
  return changed(context, id, heard ? { set: 'heard_at = coalesce(heard_at, ?)', value: moment(context) } : { set: 'heard_at = ?', value: null });
}

/** Takes a recording off the lists. It can be put back at any time. */
export function removeRecording(context: StoreContext, id: number): FiledRecording {
  return changed(context, id, { set: 'removed_at = coalesce(removed_at, ?)', value: moment(context) });
}

/** Undoes a removal. */
export function restoreRecording(context: StoreContext, id: number): FiledRecording {
  return changed(context, id, { set: 'removed_at = ?', value: null });
}

/** Says that a recording is another pupil's, or was read against another score; what was written of it stays with it. */
export function moveRecording(context: StoreContext, id: number, to: { readonly pupilId: number; readonly scoreId: number; readonly line: string }): FiledRecording {
  context.database.run('UPDATE recordings SET pupil_id = ?, score_id = ?, line = ? WHERE id = ?', [to.pupilId, to.scoreId, to.line, id]);
  return changed(context, id, { set: 'removed_at = ?', value: null });
}

/** One column of one recording. */
function changed(context: StoreContext, id: number, { set, value }: { readonly set: string; readonly value: string | null }): FiledRecording {
  context.database.run(`UPDATE recordings SET ${set} WHERE id = ?`, [value, id]);
  const [recording] = withWhoAndWhat(context, [oneRecording(context, id)]);
  if (recording === undefined) throw new RangeError('no such recording');
  return recording;
}

/** Adds pupil, piece and number of comments; each pupil and piece is looked up once. */
function withWhoAndWhat({ database }: StoreContext, recordings: readonly StoredRecording[]): readonly FiledRecording[] {
  const each = (ids: readonly number[], sql: string) => new Map([...new Set(ids)].map((id) => [id, database.get(sql, [id])]));
  const pupils = each(recordings.map(({ pupilId }) => pupilId), 'SELECT * FROM pupils WHERE id = ?');
  const pieces = each(recordings.map(({ scoreId }) => scoreId), 'SELECT pieces.* FROM pieces JOIN scores ON scores.piece_id = pieces.id WHERE scores.id = ?');
  return recordings.map((recording) => {
    const [pupil, piece] = [pupils.get(recording.pupilId), pieces.get(recording.scoreId)];
    const comments = database.get('SELECT count(*) AS n FROM comments WHERE recording_id = ? AND removed_at IS NULL', [recording.id]);
    if (!pupil || !piece || comments === null) throw new RangeError('a recording without pupil or piece');
    return { ...recording, pupil: pupilOf(pupil), piece: pieceOf(piece), comments: numberOf(comments, 'n') };
  });
}

/** A recording that was sent again is on the lists again. */
function comeBack(context: StoreContext, recording: StoredRecording): StoredRecording {
  return recording.removedAt === null ? recording : restoreRecording(context, recording.id);
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
    heardAt: textOrNull(row, 'heard_at'),
    removedAt: textOrNull(row, 'removed_at'),
  };
}
