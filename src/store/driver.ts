import Sqlite from 'better-sqlite3';

/**
 * The only file that knows which SQLite is used. Another one (the runtime's own, say) takes its place by
 * implementing `Database` here; nothing else needs to change.
 */

/** What a column can hold. */
export type SqlValue = string | number | null;

/** One row as it comes; its columns are checked where they are read (see rows.ts). */
export type Row = Readonly<Record<string, unknown>>;

/**
 * What the store needs of a database. All calls are synchronous: when one returns, its change is
 * on the disk.
 */
export interface Database {
  /**
   * Runs one statement; tells the number of the last inserted row and how many rows it changed.
   */
  run(sql: string, values?: readonly SqlValue[]): { readonly id: number; readonly changes: number };
  /** The first row, or null. */
  get(sql: string, values?: readonly SqlValue[]): Row | null;
  /** All rows. */
  all(sql: string, values?: readonly SqlValue[]): readonly Row[];
  /** Runs several statements without values. */
  script(sql: string): void;
  /** Either everything that `work` does is kept, or (where it throws) nothing of it. */
  together<T>(work: () => T): T;
  close(): void;
}

/**
 * How long a call waits for another program that is just writing, ms: longer than any write of
 * ours.
 */
const BUSY_TIMEOUT_MS = 5000;

/**
 * Opens (or creates) a database file. Write-ahead log, so that readers never wait; full synchronisation, so that a
 * committed comment outlives a power cut; foreign keys enforced.
 * @param path file, or ":memory:"
 */
export function openDatabase(path: string, busyTimeoutMs = BUSY_TIMEOUT_MS): Database {
  const sqlite = new Sqlite(path, { timeout: busyTimeoutMs });
  try {
    sqlite.pragma('journal_mode = WAL');
    sqlite.pragma('synchronous = FULL');
    sqlite.pragma('foreign_keys = ON');
    // what is deleted or changed is overwritten, not only left out
    sqlite.pragma('secure_delete = ON');
  } catch (error) {
    sqlite.close();
    throw error;
  }
  // every text of a statement stands in the program, so there are only so many of them
  const statements = new Map<string, Sqlite.Statement>();
  const prepared = (sql: string): Sqlite.Statement => {
    const known = statements.get(sql) ?? sqlite.prepare(sql);
    statements.set(sql, known);
    return known;
  };
  return {
    run: (sql, values = []) => {
      const { lastInsertRowid, changes } = prepared(sql).run(...values);
      return { id: Number(lastInsertRowid), changes };
    },
    get: (sql, values = []) => {
      const row = prepared(sql).get(...values);
      return isRow(row) ? row : null;
    },
    all: (sql, values = []) => prepared(sql).all(...values).filter(isRow),
    script: (sql) => void sqlite.exec(sql),
    together: (work) => sqlite.transaction(work).immediate(),
    close: () => void sqlite.close(),
  };
}

/** True for an object with columns. */
function isRow(row: unknown): row is Row {
  return typeof row === 'object' && row !== null;
}
