/** What pupils take home. A sheet belongs to a recording; what it said before stays, and the newest version holds. */
import { moment, type StoreContext } from './context.js';
import type { Row } from './driver.js';
import { numberOf, textOf } from './rows.js';

/** A lesson sheet as it was last saved. */
export interface LessonSheet {
  readonly id: number;
  readonly recordingId: number;
  /** JSON; the page of the sheet reads and writes it. */
  readonly body: string;
  readonly createdAt: string;
  readonly savedAt: string;
}

/** Sheets with their newest version. */
const WITH_BODY = `
  SELECT lesson_sheets.*, latest.body AS body, latest.saved_at AS saved_at
  FROM lesson_sheets
  JOIN lesson_sheet_versions AS latest ON latest.id = (SELECT max(id) FROM lesson_sheet_versions WHERE sheet_id = lesson_sheets.id)
  JOIN recordings ON recordings.id = recording_id`;

/** The sheet of a recording, or null. */
export function lessonSheet({ database }: StoreContext, recordingId: number): LessonSheet | null {
  const row = database.get(`${WITH_BODY} WHERE recording_id = ?`, [recordingId]);
  return row === null ? null : sheetOf(row);
}

/** Keeps what a sheet says now; the same again changes nothing. When this returns it is on the disk. */
export function saveLessonSheet(context: StoreContext, recordingId: number, body: string): LessonSheet {
  const { database } = context;
  return database.together(() => {
    const known = lessonSheet(context, recordingId);
    if (known?.body === body) return known;
    const now = moment(context);
    const id = known?.id ?? database.run('INSERT INTO lesson_sheets (recording_id, created_at) VALUES (?, ?)', [recordingId, now]).id;
    database.run('INSERT INTO lesson_sheet_versions (sheet_id, body, saved_at) VALUES (?, ?, ?)', [id, body, now]);
    return { id, recordingId, body, createdAt: known?.createdAt ?? now, savedAt: now };
  });
}

/** Every sheet of a pupil, newest first. */
export function lessonSheetsOf({ database }: StoreContext, pupilId: number): readonly LessonSheet[] {
  return database.all(`${WITH_BODY} WHERE recordings.pupil_id = ? AND recordings.removed_at IS NULL ORDER BY lesson_sheets.id DESC`, [pupilId]).map(sheetOf);
}

/** A row as a record. */
function sheetOf(row: Row): LessonSheet {
  return { id: numberOf(row, 'id'), recordingId: numberOf(row, 'recording_id'), body: textOf(row, 'body'), createdAt: textOf(row, 'created_at'), savedAt: textOf(row, 'saved_at') };
}
