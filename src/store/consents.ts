/** Whether a pupil's recordings may be kept: of age, or under age with the consent that the teacher says she has. Asked once a pupil. */
import { moment, type StoreContext } from './context.js';
import type { Row } from './driver.js';
import { numberOf, textOf } from './rows.js';
import type { Pupil } from './types.js';
import { pupilOf } from './pupils.js';

/** What the teacher said. */
export interface Consent {
  /** True for a pupil who is of age and decides alone. */
  readonly adult: boolean;
  /** When she said it, ISO 8601. */
  readonly givenAt: string;
}

/** What was said of a pupil, or null. */
export function consentOf(context: StoreContext, pupilId: number): Consent | null {
  const row = context.database.get('SELECT given_at, adult FROM consents WHERE pupil_id = ?', [pupilId]);
  return row === null ? null : consentIn(row);
}

/** Notes what the teacher said; null takes it back. */
export function setConsent(context: StoreContext, pupilId: number, consent: Pick<Consent, 'adult'> | null): void {
  if (consent === null) context.database.run('DELETE FROM consents WHERE pupil_id = ?', [pupilId]);
  else {
    context.database.run(
      'INSERT INTO consents (pupil_id, given_at, adult) VALUES (?, ?, ?) ON CONFLICT (pupil_id) DO UPDATE SET given_at = excluded.given_at, adult = excluded.adult',
      [pupilId, moment(context), consent.adult ? 1 : 0],
    );
  }
}

/** Pupils on the lists of whom nothing was said; people of the demo room need none. */
export function pupilsToAsk(context: StoreContext): readonly Pupil[] {
  return context.database.all('SELECT * FROM pupils WHERE removed_at IS NULL AND invented = 0 AND id NOT IN (SELECT pupil_id FROM consents) ORDER BY id').map(pupilOf);
}

/** A row as a record. */
function consentIn(row: Row): Consent {
  return { adult: numberOf(row, 'adult') === 1, givenAt: textOf(row, 'given_at') };
}
