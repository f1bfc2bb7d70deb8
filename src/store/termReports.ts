/** What the teacher writes to parents at the end of a term. Every version is kept; the newest holds. */
import { moment, type StoreContext } from './context.js';
import { textOf } from './rows.js';

/** A term report as it was last saved. */
export interface TermReport {
  /** JSON; the page of the report reads and writes it. */
  readonly body: string;
  readonly savedAt: string;
}

/** The newest version of a pupil's, or null. */
export function termReport({ database }: StoreContext, pupilId: number): TermReport | null {
  const row = database.get('SELECT body, saved_at FROM term_report_versions WHERE pupil_id = ? ORDER BY id DESC LIMIT 1', [pupilId]);
  return row === null ? null : { body: textOf(row, 'body'), savedAt: textOf(row, 'saved_at') };
}

/** Keeps what a report says now; the same again changes nothing. When this returns it is on the disk. */
export function saveTermReport(context: StoreContext, pupilId: number, body: string): TermReport {
  return context.database.together(() => {
    const known = termReport(context, pupilId);
    if (known?.body === body) return known;
    const now = moment(context);
    context.database.run('INSERT INTO term_report_versions (pupil_id, body, saved_at) VALUES (?, ?, ?)', [pupilId, body, now]);
    return { body, savedAt: now };
  });
}
