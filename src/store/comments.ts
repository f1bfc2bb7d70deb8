/**
 * What the teacher wrote is the one thing here that no file can bring back. So a text is never overwritten, a
 * removal only hides, and the same form can come any number of times.
 */
import { InputError } from '../base/index.js';
import { moment, type StoreContext } from './context.js';
import type { Row } from './driver.js';
import { numberOf, numberOrNull, textOf, textOrNull } from './rows.js';
import type { Comment, CommentVersion, FiledComment, NewComment } from './types.js';

/**
 * Longest comment, characters: several pages of writing; beyond that something else was pasted.
 */
export const LONGEST_COMMENT = 8000;

/** Comments with their newest text. */
const WITH_TEXT = `
  SELECT comments.*, latest.text AS text, latest.saved_at AS edited_at
  FROM comments JOIN comment_versions AS latest
    ON latest.id = (SELECT max(id) FROM comment_versions WHERE comment_id = comments.id)`;

/**
 * Writes a comment; when this returns it is on the disk. The same key again is the same comment: with another text
 * it becomes an edit, and one removed meanwhile comes back, so nothing that was sent is ever lost.
 * @throws InputError code `empty` or `too-large` for the text, `not-found` where the key belongs to another recording
 */
export function addComment(context: StoreContext, comment: NewComment): Comment {
  const text = checkedText(comment.text);
  return context.database.together(() => {
    const known = context.database.get(`${WITH_TEXT} WHERE idempotency_key = ?`, [comment.key]);
    if (known === null) return insert(context, comment, text);
    return sentAgain(context, commentOf(known), { ...comment, text });
  });
}

/**
 * Changes the text; the old one stays in the history. The same text again changes nothing.
 * @throws InputError code `empty` or `too-large`; RangeError where there is no such comment
 */
export function editComment(context: StoreContext, id: number, text: string): Comment {
  const tidy = checkedText(text);
  return context.database.together(() => {
    if (oneComment(context, id).text !== tidy) addVersion(context, id, tidy);
    return oneComment(context, id);
  });
}

/** Takes a comment off its page. It can be put back at any time. */
export function removeComment(context: StoreContext, id: number): Comment {
  context.database.run('UPDATE comments SET removed_at = ? WHERE id = ? AND removed_at IS NULL', [moment(context), id]);
  return oneComment(context, id);
}

/** Undoes a removal. */
export function restoreComment(context: StoreContext, id: number): Comment {
  context.database.run('UPDATE comments SET removed_at = NULL WHERE id = ?', [id]);
  return oneComment(context, id);
}

/** The comment with this number, removed or not, or null. */
export function commentById(context: StoreContext, id: number): Comment | null {
  const row = context.database.get(`${WITH_TEXT} WHERE comments.id = ?`, [id]);
  return row === null ? null : commentOf(row);
}

/** Comments of a recording that are not removed: on the whole of it first, then in the order of their bars. */
export function commentsOf(context: StoreContext, recordingId: number): readonly Comment[] {
  return context.database
    .all(`${WITH_TEXT} WHERE recording_id = ? AND removed_at IS NULL ORDER BY whole DESC, from_index, to_index, comments.id`, [recordingId])
    .map(commentOf);
}

/** Says that what a comment asked for is done, or (false) that it is still open. */
export function setSettled(context: StoreContext, id: number, settled: boolean): Comment {
  context.database.run(`UPDATE comments SET settled_at = ${settled ? 'coalesce(settled_at, ?)' : '?'} WHERE id = ?`, [settled ? moment(context) : null, id]);
  return oneComment(context, id);
}

/** All comments on a pupil's recordings that are neither removed nor on one that is, newest first. */
export function commentsOfPupil(context: StoreContext, pupilId: number): readonly FiledComment[] {
  return context.database
    .all(
      `SELECT comments.*, latest.text AS text, latest.saved_at AS edited_at, scores.piece_id AS piece_id, recordings.received_at AS received_at
       FROM recordings JOIN comments ON comments.recording_id = recordings.id JOIN scores ON scores.id = recordings.score_id
       JOIN comment_versions AS latest ON latest.id = (SELECT max(id) FROM comment_versions WHERE comment_id = comments.id)
       WHERE pupil_id = ? AND comments.removed_at IS NULL AND recordings.removed_at IS NULL ORDER BY comments.created_at DESC, comments.id DESC`,
      [pupilId],
    )
    .map((row) => ({ ...commentOf(row), pieceId: numberOf(row, 'piece_id'), receivedAt: textOf(row, 'received_at') }));
}

/** Every text that a comment has had, oldest first. */
export function versionsOf(context: StoreContext, id: number): readonly CommentVersion[] {
  return context.database
    .all('SELECT text, saved_at FROM comment_versions WHERE comment_id = ? ORDER BY id', [id])
    .map((row) => ({ text: textOf(row, 'text'), savedAt: textOf(row, 'saved_at') }));
}

/** The text as it is kept: line ends unified, spaces at both ends taken off. */
function checkedText(text: string): string {
  const tidy = text.replace(/\r\n?/g, '\n').replaceAll('\0', '').trim();
  if (tidy === '') throw new InputError('empty', 'Nothing was written, so nothing was saved. Write something, or take the comment off.');
  if (tidy.length > LONGEST_COMMENT) {
    throw new InputError('too-large', `This comment is longer than ${LONGEST_COMMENT} characters. Shorten it and save again.`);
  }
  return tidy;
}

/**
 * A comment whose form came a second time: a page that saves as one types sends its form again for every
 * change, of the bars and the try as well as of the text.
 */
function sentAgain(context: StoreContext, known: Comment, sent: NewComment): Comment {
  if (known.recordingId !== sent.recordingId) throw new InputError('not-found', 'This form belongs to another recording. Open the page again.');
  context.database.run(
    'UPDATE comments SET bar_from = ?, bar_to = ?, from_index = ?, to_index = ?, whole = ?, pass = ?, attempt = ?, removed_at = NULL WHERE id = ?',
    [...placeOf(sent), known.id],
  );
  return editComment(context, known.id, sent.text);
}

/** Both rows of a new comment. */
function insert(context: StoreContext, comment: NewComment, text: string): Comment {
  const { id } = context.database.run(
    `INSERT INTO comments (recording_id, idempotency_key, bar_from, bar_to, from_index, to_index, whole, pass, attempt, created_at)
     VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)`,
    [comment.recordingId, comment.key, ...placeOf(comment), comment.writtenAt ?? moment(context)],
  );
  addVersion(context, id, text, comment.writtenAt);
  return oneComment(context, id);
}

/** What a comment is about, as its columns have it. */
function placeOf({ bars, barIndexes, whole, pass, attempt }: NewComment): readonly (string | number | null)[] {
  return [...bars, ...barIndexes, whole === true ? 1 : 0, pass ?? null, attempt ?? null];
}

/** One more text of a comment. */
function addVersion(context: StoreContext, id: number, text: string, savedAt = moment(context)): void {
  context.database.run('INSERT INTO comment_versions (comment_id, text, saved_at) VALUES (?, ?, ?)', [id, text, savedAt]);
}

/** @throws RangeError where there is no such comment */
function oneComment(context: StoreContext, id: number): Comment {
  const comment = commentById(context, id);
  if (comment === null) throw new RangeError('no such comment');
  return comment;
}

/** A row as a record. */
function commentOf(row: Row): Comment {
  return {
    id: numberOf(row, 'id'),
    recordingId: numberOf(row, 'recording_id'),
    bars: [textOf(row, 'bar_from'), textOf(row, 'bar_to')],
    barIndexes: [numberOf(row, 'from_index'), numberOf(row, 'to_index')],
    whole: numberOf(row, 'whole') === 1,
    pass: numberOrNull(row, 'pass'),
    attempt: numberOrNull(row, 'attempt'),
    text: textOf(row, 'text'),
    createdAt: textOf(row, 'created_at'),
    editedAt: textOf(row, 'edited_at'),
    settledAt: textOrNull(row, 'settled_at'),
    removedAt: textOrNull(row, 'removed_at'),
  };
}
