/** Consent to keep the recordings of a pupil who is under age: that the teacher has it, and since when. */
import { moment, type StoreContext } from './context.js';
import { textOf } from './rows.js';

/** When the teacher said that she has it (ISO 8601), or null. */
export function consentAt(context: StoreContext, pupilId: number): string | null {
  const row = context.database.get('SELECT given_at FROM consents WHERE pupil_id = ?', [pupilId]);
  return row === null ? null : textOf(row, 'given_at');
}

/** Notes that consent is there; the first moment stays. False takes it back. */
export function setConsent(context: StoreContext, pupilId: number, given: boolean): void {
  if (given) context.database.run('INSERT INTO consents (pupil_id, given_at) VALUES (?, ?) ON CONFLICT (pupil_id) DO NOTHING', [pupilId, moment(context)]);
  else context.database.run('DELETE FROM consents WHERE pupil_id = ?', [pupilId]);
}
