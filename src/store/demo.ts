/** The invented demo room as a whole: taken off all lists at once, and put back as it was, comments and all. */
import { moment, type StoreContext } from './context.js';
import { numberOf } from './rows.js';

/** Whether the demo room is here, taken off the lists, or was never put in. */
export type DemoState = 'here' | 'removed' | 'none';

/** How the demo room stands. */
export function demoState({ database }: StoreContext): DemoState {
  const row = database.get('SELECT count(*) AS people, count(removed_at) AS removed FROM pupils WHERE invented = 1');
  const [people, removed] = row === null ? [0, 0] : [numberOf(row, 'people'), numberOf(row, 'removed')];
  if (people === 0) return 'none';
  return removed === people ? 'removed' : 'here';
}

/** Takes its people and pieces off the lists; a piece that a pupil of the teacher's own plays stays. */
export function removeDemo(context: StoreContext): void {
  const { database } = context;
  const now = moment(context);
  database.together(() => {
    database.run('UPDATE pupils SET removed_at = ? WHERE invented = 1 AND removed_at IS NULL', [now]);
    database.run(
      `UPDATE pieces SET removed_at = ? WHERE invented = 1 AND removed_at IS NULL AND id NOT IN (
         SELECT piece_id FROM scores JOIN recordings ON score_id = scores.id JOIN pupils ON pupils.id = pupil_id WHERE pupils.invented = 0)`,
      [now],
    );
  });
}

/** Puts all of it back. */
export function restoreDemo({ database }: StoreContext): void {
  database.together(() => {
    database.run('UPDATE pupils SET removed_at = NULL WHERE invented = 1');
    database.run('UPDATE pieces SET removed_at = NULL WHERE invented = 1');
  });
}
