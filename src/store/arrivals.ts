/**
 * Files that were put in and wait: the room could not tell whose they are, or no piece fits. They are kept like any
 * other, so that nobody has to find and send them again.
 */
import { moment, type StoreContext } from './context.js';
import type { Row } from './driver.js';
import { keep, type IncomingFile } from './pieces.js';
import { numberOf, numberOrNull, textOf } from './rows.js';
import type { Arrival } from './types.js';

/** A file about to wait. */
export interface NewArrival {
  readonly file: IncomingFile;
  readonly pupilId: number | null;
  readonly scoreId: number | null;
  readonly line: string;
}

/** Lets a file wait; it is on the disk before its row is. The same content waits once. */
export function addArrival(context: StoreContext, { file, pupilId, scoreId, line }: NewArrival): Arrival {
  const { database } = context;
  const kept = keep(context, file);
  return database.together(() => {
    const known = database.get('SELECT id FROM arrivals WHERE file = ?', [kept.file]);
    if (known !== null) {
      const id = numberOf(known, 'id');
      database.run('UPDATE arrivals SET pupil_id = coalesce(?, pupil_id), score_id = ?, line = ?, removed_at = NULL WHERE id = ?', [pupilId, scoreId, line, id]);
      return oneArrival(context, id);
    }
    const { id } = database.run('INSERT INTO arrivals (file, file_name, bytes, pupil_id, score_id, line, received_at) VALUES (?, ?, ?, ?, ?, ?, ?)', [
      kept.file, kept.fileName, kept.bytes, pupilId, scoreId, line, moment(context),
    ]);
    return oneArrival(context, id);
  });
}

/** Files that wait, the oldest first. */
export function allArrivals({ database }: StoreContext): readonly Arrival[] {
  return database.all('SELECT * FROM arrivals WHERE removed_at IS NULL ORDER BY id').map(arrivalOf);
}

/** The file that waits under this number, put aside or not; null where it waits no more. */
export function arrivalById({ database }: StoreContext, id: number): Arrival | null {
  const row = database.get('SELECT * FROM arrivals WHERE id = ?', [id]);
  return row === null ? null : arrivalOf(row);
}

/** Puts a file aside, or (false) back among those that wait. */
export function setAside(context: StoreContext, id: number, aside: boolean): void {
  context.database.run('UPDATE arrivals SET removed_at = ? WHERE id = ?', [aside ? moment(context) : null, id]);
}

/** A file that has found its place waits no more. */
export function endArrival({ database }: StoreContext, id: number): void {
  database.run('DELETE FROM arrivals WHERE id = ?', [id]);
}

/** @throws RangeError where there is none */
function oneArrival(context: StoreContext, id: number): Arrival {
  const arrival = arrivalById(context, id);
  if (arrival === null) throw new RangeError('no such arrival');
  return arrival;
}

/** A row as a record. */
function arrivalOf(row: Row): Arrival {
  return {
    id: numberOf(row, 'id'),
    file: textOf(row, 'file'),
    fileName: textOf(row, 'file_name'),
    bytes: numberOf(row, 'bytes'),
    pupilId: numberOrNull(row, 'pupil_id'),
    scoreId: numberOrNull(row, 'score_id'),
    line: textOf(row, 'line'),
    receivedAt: textOf(row, 'received_at'),
  };
}
