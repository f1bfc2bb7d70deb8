/** What the teacher decided about remarks, for a piece, a pupil, or a pupil at a piece. Nothing is overwritten; a removal only hides. */
import { NO_DECISIONS, readLeftAlone, readPreferences, readRightAsPlayed, type Decisions, type LeftAlone, type Preferences, type RightAsPlayed } from '../judge/index.js';
import { moment, type StoreContext } from './context.js';
import type { Row } from './driver.js';
import { numberOf, numberOrNull, textOf, textOrNull } from './rows.js';

/** Whom and what a decision is for; null means everybody, every piece. */
export interface DecisionScope {
  readonly pupilId: number | null;
  readonly pieceId: number | null;
}

/** What was decided. */
export type Decision =
  | { readonly kind: 'right'; readonly value: RightAsPlayed }
  | { readonly kind: 'left'; readonly value: LeftAlone }
  | { readonly kind: 'preferences'; readonly value: Preferences };

/** A decision as it is kept. */
export type StoredDecision = Decision & DecisionScope & {
  readonly id: number;
  readonly createdAt: string;
  /** Null unless taken back. */
  readonly removedAt: string | null;
};

/** Keeps a decision; of preferences the newest of a scope holds. */
export function addDecision(context: StoreContext, scope: DecisionScope, { kind, value }: Decision): StoredDecision {
  const { id } = context.database.run('INSERT INTO decisions (pupil_id, piece_id, kind, body, created_at) VALUES (?, ?, ?, ?, ?)', [
    scope.pupilId, scope.pieceId, kind, JSON.stringify(value), moment(context),
  ]);
  return oneDecision(context, id);
}

/** Takes a decision back. It can be put back at any time. */
export function removeDecision(context: StoreContext, id: number): StoredDecision {
  context.database.run('UPDATE decisions SET removed_at = ? WHERE id = ? AND removed_at IS NULL', [moment(context), id]);
  return oneDecision(context, id);
}

/** Undoes a removal. */
export function restoreDecision(context: StoreContext, id: number): StoredDecision {
  context.database.run('UPDATE decisions SET removed_at = NULL WHERE id = ?', [id]);
  return oneDecision(context, id);
}

/** A pupil at a piece. */
export interface DecidedFor {
  readonly pupilId: number;
  readonly pieceId: number;
  /** True for those that were taken back, instead of those that hold. */
  readonly takenBack?: boolean;
}

/** Decisions that hold for a pupil at a piece, oldest first. */
export function decisionsFor(context: StoreContext, { pupilId, pieceId, takenBack = false }: DecidedFor): readonly StoredDecision[] {
  return context.database
    .all(`SELECT * FROM decisions WHERE removed_at IS ${takenBack ? 'NOT NULL' : 'NULL'} AND (pupil_id IS NULL OR pupil_id = ?) AND (piece_id IS NULL OR piece_id = ?) ORDER BY id`, [pupilId, pieceId])
    .map(decisionOf);
}

/** All of them as judgement takes them; later preferences come before earlier ones, aspect by aspect. */
export function asDecisions(stored: readonly StoredDecision[]): Decisions {
  const preferences = stored.flatMap((one) => (one.kind === 'preferences' ? [one.value] : []));
  return {
    rightAsPlayed: stored.flatMap((one) => (one.kind === 'right' ? [one.value] : [])),
    left: stored.flatMap((one) => (one.kind === 'left' ? [one.value] : [])),
    preferences: preferences.reduce((all, { strictness, lookAt }) => ({ strictness: { ...all.strictness, ...strictness }, lookAt }), NO_DECISIONS.preferences),
  };
}

/** @throws RangeError where there is no such decision */
function oneDecision(context: StoreContext, id: number): StoredDecision {
  const row = context.database.get('SELECT * FROM decisions WHERE id = ?', [id]);
  if (row === null) throw new RangeError('no such decision');
  return decisionOf(row);
}

/** A row as a record. */
function decisionOf(row: Row): StoredDecision {
  const body: unknown = JSON.parse(textOf(row, 'body'));
  return {
    id: numberOf(row, 'id'),
    pupilId: numberOrNull(row, 'pupil_id'),
    pieceId: numberOrNull(row, 'piece_id'),
    createdAt: textOf(row, 'created_at'),
    removedAt: textOrNull(row, 'removed_at'),
    ...decided(textOf(row, 'kind'), body),
  };
}

/** Kind and value of a row. @throws TypeError for a kind that this program does not write */
function decided(kind: string, body: unknown): Decision {
  if (kind === 'right') return { kind, value: readRightAsPlayed(body) };
  if (kind === 'left') return { kind, value: readLeftAlone(body) };
  if (kind === 'preferences') return { kind, value: readPreferences(body) };
  throw new TypeError('a decision of an unknown kind');
}
