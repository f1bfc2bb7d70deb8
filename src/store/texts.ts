/** What was written over the months, as a whole: from it the teacher's own phrases are learned. */
import type { StoreContext } from './context.js';
import { textOf } from './rows.js';

/** Comments looked through for phrases, the newest ones: two years of a full studio. */
const COMMENTS_LOOKED_THROUGH = 6000;

/** The text that each comment has now, the newest comments first; those removed, and those of removed pupils, are left out. */
export function textsWritten({ database }: StoreContext): readonly string[] {
  return database
    .all(
      `SELECT latest.text AS text FROM comments
       JOIN comment_versions AS latest ON latest.id = (SELECT max(id) FROM comment_versions WHERE comment_id = comments.id)
       JOIN recordings ON recordings.id = comments.recording_id JOIN pupils ON pupils.id = recordings.pupil_id
       WHERE comments.removed_at IS NULL AND recordings.removed_at IS NULL AND pupils.removed_at IS NULL
       ORDER BY comments.id DESC LIMIT ?`,
      [COMMENTS_LOOKED_THROUGH],
    )
    .map((row) => textOf(row, 'text'));
}
