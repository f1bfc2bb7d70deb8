/**
 * Deleting for good: rows, whatever in other tables points to them, files that nothing else needs, and what the database
 * would otherwise keep of them in its free pages and its log. Tables are found by their foreign keys, so that one that is
 * added later leaves no trace either.
 */
import type { StoreContext } from './context.js';
import type { Database } from './driver.js';
import { numberOf, textOf } from './rows.js';

/** Whose tables a deletion can begin at. */
export type ErasableTable = 'pupils' | 'recordings' | 'arrivals';

/**
 * Deletes a row and all that belongs to it. When this returns, nothing of it is in the data folder any more.
 * @returns SHA-256 of the files that have gone
 */
export function erase(context: StoreContext, table: ErasableTable, id: number): readonly string[] {
  const { database, files } = context;
  const gone = database.together(() => {
    const before = filesInUse(database);
    eraseRows(database, table, [id]);
    const after = filesInUse(database);
    return [...before].filter((file) => !after.has(file));
  });
  for (const file of gone) files.forget(file);
  wipe(database);
  return gone;
}

/** Writes the database anew without what was deleted, and empties its log. */
export function wipe(database: Database): void {
  database.script('VACUUM');
  database.script('PRAGMA wal_checkpoint(TRUNCATE)');
}

/** Rows by their row numbers, and first those that point to them. */
function eraseRows(database: Database, table: string, rowids: readonly number[]): void {
  if (rowids.length === 0) return;
  const marks = rowids.map(() => '?').join(', ');
  for (const { child, column, parent } of pointingTo(database, table)) {
    const rows = database.all(`SELECT rowid AS row FROM "${child}" WHERE "${column}" IN (SELECT "${parent}" FROM "${table}" WHERE rowid IN (${marks}))`, rowids);
    eraseRows(database, child, rows.map((row) => numberOf(row, 'row')));
  }
  database.run(`DELETE FROM "${table}" WHERE rowid IN (${marks})`, rowids);
}

/** Columns of other tables that point to a table. */
function pointingTo(database: Database, table: string): readonly { readonly child: string; readonly column: string; readonly parent: string }[] {
  return tablesOf(database).flatMap((child) =>
    database
      .all(`PRAGMA foreign_key_list("${child}")`)
      .filter((key) => textOf(key, 'table') === table)
      .map((key) => ({ child, column: textOf(key, 'from'), parent: textOf(key, 'to') })),
  );
}

/** Names of our own tables. */
export function tablesOf(database: Database): readonly string[] {
  return database.all("SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite_%' ORDER BY name").map((row) => textOf(row, 'name'));
}

/** Files that some row needs. */
export function filesInUse(database: Database): ReadonlySet<string> {
  const rows = database.all('SELECT file FROM scores UNION SELECT file FROM recordings UNION SELECT file FROM arrivals');
  return new Set(rows.map((row) => textOf(row, 'file')));
}
