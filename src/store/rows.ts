import type { Row } from './driver.js';

/**
 * Reading columns with their types checked. A wrong type means that the tables and this program disagree, which is
 * our own mistake: TypeError.
 */

/** @throws TypeError where the column holds no text */
export function textOf(row: Row, column: string): string {
  const value = row[column];
  if (typeof value !== 'string') throw new TypeError(`column ${column} holds no text`);
  return value;
}

/** @throws TypeError where the column holds no number */
export function numberOf(row: Row, column: string): number {
  const value = row[column];
  if (typeof value !== 'number') throw new TypeError(`column ${column} holds no number`);
  return value;
}

/** Text or null. @throws TypeError where the column holds something else */
export function textOrNull(row: Row, column: string): string | null {
  return row[column] === null ? null : textOf(row, column);
}

/** Number or null. @throws TypeError where the column holds something else */
export function numberOrNull(row: Row, column: string): number | null {
  return row[column] === null ? null : numberOf(row, column);
}
