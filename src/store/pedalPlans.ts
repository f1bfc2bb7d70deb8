/** The teacher's pedal plan of a piece. Every change is a version of its own; the newest that was not taken back holds. */
import { readTeachersPlan, type TeachersPlan } from '../analysis/index.js';
import { moment, type StoreContext } from './context.js';
import type { Row } from './driver.js';
import { numberOf, textOf, textOrNull } from './rows.js';

/** A plan as it once was. */
export interface PlanVersion {
  readonly id: number;
  readonly pieceId: number;
  /** Null where the teacher went back to the program's plan. */
  readonly plan: TeachersPlan | null;
  readonly createdAt: string;
  /** Null unless taken back. */
  readonly removedAt: string | null;
}

/** The plan that holds; null where it is the program's. */
export function planOf(context: StoreContext, pieceId: number): TeachersPlan | null {
  return newestPlan(context, pieceId)?.plan ?? null;
}

/** The version that holds, or null where nothing was ever changed. */
export function newestPlan(context: StoreContext, pieceId: number): PlanVersion | null {
  const row = context.database.get('SELECT * FROM pedal_plans WHERE piece_id = ? AND removed_at IS NULL ORDER BY id DESC LIMIT 1', [pieceId]);
  return row === null ? null : versionOf(row);
}

/** Every version, newest first, those taken back too. */
export function planVersions(context: StoreContext, pieceId: number): readonly PlanVersion[] {
  return context.database.all('SELECT * FROM pedal_plans WHERE piece_id = ? ORDER BY id DESC', [pieceId]).map(versionOf);
}

/** Keeps a plan; null goes back to the program's. */
export function setPlan(context: StoreContext, pieceId: number, plan: TeachersPlan | null): PlanVersion {
  const { id } = context.database.run('INSERT INTO pedal_plans (piece_id, body, created_at) VALUES (?, ?, ?)', [pieceId, plan === null ? null : JSON.stringify(plan), moment(context)]);
  return oneVersion(context, id);
}

/** Takes a version back: the one before it holds again. */
export function removePlan(context: StoreContext, id: number): PlanVersion {
  context.database.run('UPDATE pedal_plans SET removed_at = ? WHERE id = ? AND removed_at IS NULL', [moment(context), id]);
  return oneVersion(context, id);
}

/** Undoes that. */
export function restorePlan(context: StoreContext, id: number): PlanVersion {
  context.database.run('UPDATE pedal_plans SET removed_at = NULL WHERE id = ?', [id]);
  return oneVersion(context, id);
}

/** @throws RangeError where there is no such version */
function oneVersion(context: StoreContext, id: number): PlanVersion {
  const row = context.database.get('SELECT * FROM pedal_plans WHERE id = ?', [id]);
  if (row === null) throw new RangeError('no such pedal plan');
  return versionOf(row);
}

/** A row as a record. */
function versionOf(row: Row): PlanVersion {
  const body = textOrNull(row, 'body');
  return {
    id: numberOf(row, 'id'),
    pieceId: numberOf(row, 'piece_id'),
    plan: body === null ? null : readTeachersPlan(JSON.parse(body)),
    createdAt: textOf(row, 'created_at'),
    removedAt: textOrNull(row, 'removed_at'),
  };
}
