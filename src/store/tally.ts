/** How much waits for the teacher, a pupil at a time. */
import type { StoreContext } from './context.js';
import { numberOf } from './rows.js';

/** What waits of one pupil. */
export interface Tally {
  readonly pupilId: number;
  /** Recordings that nobody has heard. */
  readonly unheard: number;
  /** Comments that are not settled. */
  readonly open: number;
}

/** What waits of every pupil who has sent anything that is on the lists. */
export function tallies({ database }: StoreContext): readonly Tally[] {
  return database
    .all(
      `SELECT pupil_id, sum(heard_at IS NULL) AS unheard,
         sum((SELECT count(*) FROM comments WHERE recording_id = recordings.id AND comments.removed_at IS NULL AND settled_at IS NULL)) AS open
       FROM recordings WHERE removed_at IS NULL GROUP BY pupil_id`,
    )
    .map((row) => ({ pupilId: numberOf(row, 'pupil_id'), unheard: numberOf(row, 'unheard'), open: numberOf(row, 'open') }));
}
