/**
 * The whole room as plain rows, for carrying it to another computer. What is put back is checked against the tables as they
 * were when it was taken, then brought up to date like any older data folder.
 */
import { InputError } from '../base/index.js';
import type { StoreContext } from './context.js';
import { openDatabase, type Database, type Row, type SqlValue } from './driver.js';
import { filesInUse, tablesOf, wipe } from './erase.js';
import { LATEST_VERSION, migrate, migrateTo } from './migrations.js';

/** All rows of all tables. */
export interface Archive {
  readonly format: 'barwise-room-archive/1';
  /** How many changes the tables had seen. */
  readonly version: number;
  readonly tables: Readonly<Record<string, readonly Row[]>>;
}

/** Says who may come in on this computer; it means nothing on another, and nobody else is to have it. */
const NOT_CARRIED = new Set(['sessions']);

/** Rows that are carried: of settings all but the passphrase, which belongs to this computer too. */
const CARRIED: Readonly<Record<string, string>> = { settings: "WHERE name NOT LIKE 'passphrase%'" };

/** Takes all rows. */
export function takeArchive({ database }: StoreContext): Archive {
  const tables = tablesOf(database).filter((table) => !NOT_CARRIED.has(table));
  return { format: 'barwise-room-archive/1', version: LATEST_VERSION, tables: Object.fromEntries(tables.map((table) => [table, database.all(`SELECT * FROM "${table}" ${CARRIED[table] ?? ''}`)])) };
}

/**
 * Puts an archive in the place of everything that is here, its files before its rows.
 * @throws InputError `unsupported` for an archive of a newer program, `bad-value` where its rows do not fit the tables or a
 *   file is missing; nothing has changed then
 */
export function putBack(context: StoreContext, archive: unknown, files: Iterable<Uint8Array>): void {
  const before = filesInUse(context.database);
  const tables = broughtUpToDate(context, checked(archive));
  const came = new Set([...files].map((bytes) => context.files.keep(bytes)));
  try {
    const needed = new Set((['scores', 'recordings', 'arrivals'] as const).flatMap((table) => (tables[table] ?? []).map((row) => String(row['file']))));
    if ([...needed].some((file) => !context.files.has(file))) throw new InputError('bad-value', 'Files that this copy speaks of are not in it, so nothing was changed. Take the copy again.');
    fill(context.database, tables);
  } finally {
    const now = filesInUse(context.database);
    for (const file of [...before, ...came]) if (!now.has(file)) context.files.forget(file);
  }
  wipe(context.database);
}

/** Rows as today's tables hold them. */
function broughtUpToDate(context: StoreContext, { version, tables }: Archive): Archive['tables'] {
  const fresh = openDatabase(':memory:');
  try {
    migrateTo(fresh, version);
    fill(fresh, tables);
    migrate(fresh);
    return takeArchive({ ...context, database: fresh }).tables;
  } finally {
    fresh.close();
  }
}

/** Empties the tables and fills them. @throws InputError `bad-value` */
function fill(database: Database, tables: Archive['tables']): void {
  database.together(() => {
    database.script('PRAGMA defer_foreign_keys = ON');
    for (const table of tablesOf(database)) if (!NOT_CARRIED.has(table)) database.script(`DELETE FROM "${table}" ${CARRIED[table] ?? ''}`);
    const known = new Set(tablesOf(database));
    try {
      for (const [table, rows] of Object.entries(tables)) if (known.has(table)) insertAll(database, table, rows);
      if (database.all('PRAGMA foreign_key_check').length > 0) throw new RangeError('a row points nowhere');
    } catch {
      throw new InputError('bad-value', 'This copy does not fit together, so nothing was changed. Take the copy again.');
    }
  });
}

/** Rows of one table; only columns that the table has. */
function insertAll(database: Database, table: string, rows: readonly Row[]): void {
  const columns = new Set(database.all(`PRAGMA table_info("${table}")`).map((column) => String(column['name'])));
  for (const row of rows) {
    if (table === 'settings' && String(row['name']).startsWith('passphrase')) continue;
    const entries = Object.entries(row).filter(([name]) => columns.has(name));
    const names = entries.map(([name]) => `"${name}"`).join(', ');
    database.run(`INSERT INTO "${table}" (${names}) VALUES (${entries.map(() => '?').join(', ')})`, entries.map(([, value]) => sqlValue(value)));
  }
}

/** @throws TypeError for what no column holds */
function sqlValue(value: unknown): SqlValue {
  if (value === null || typeof value === 'string' || (typeof value === 'number' && Number.isFinite(value))) return value;
  throw new TypeError('a column holds text, a number or nothing');
}

/** @throws InputError where this is no archive, or one of a newer program */
function checked(archive: unknown): Archive {
  if (!isArchive(archive)) throw new InputError('bad-value', 'This is not a copy of a room, so nothing was changed. Choose the file that “Take a copy of everything” gave.');
  if (archive.version > LATEST_VERSION) throw new InputError('unsupported', 'This copy was taken by a newer version of Barwise. Put it back with that version.');
  return archive;
}

/** True for the shape of an archive. */
function isArchive(archive: unknown): archive is Archive {
  return (
    typeof archive === 'object' && archive !== null && 'format' in archive && archive.format === 'barwise-room-archive/1' &&
    'version' in archive && Number.isInteger(archive.version) && Number(archive.version) > 0 &&
    'tables' in archive && typeof archive.tables === 'object' && archive.tables !== null &&
    Object.values(archive.tables).every((rows: unknown) => Array.isArray(rows) && rows.every((row: unknown) => typeof row === 'object' && row !== null && !Array.isArray(row)))
  );
}
