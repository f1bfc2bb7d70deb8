import { InputError } from '../base/index.js';
import type { Database } from './driver.js';
import { numberOf } from './rows.js';

/**
 * Changes of the tables, in order. The database remembers in `user_version` how many it has seen. A step that has
 * been released is never edited: a new one is added below it.
 */
const MIGRATIONS: readonly string[] = [
  `CREATE TABLE pupils (
     id INTEGER PRIMARY KEY AUTOINCREMENT,
     slug TEXT NOT NULL UNIQUE,
     name TEXT NOT NULL,
     pronoun TEXT CHECK (pronoun IN ('she', 'he', 'they')),
     invented INTEGER NOT NULL DEFAULT 0,
     created_at TEXT NOT NULL
   ) STRICT;
   CREATE TABLE pieces (
     id INTEGER PRIMARY KEY AUTOINCREMENT,
     slug TEXT NOT NULL UNIQUE,
     title TEXT NOT NULL,
     composer TEXT NOT NULL,
     invented INTEGER NOT NULL DEFAULT 0,
     created_at TEXT NOT NULL
   ) STRICT;
   CREATE TABLE scores (
     id INTEGER PRIMARY KEY AUTOINCREMENT,
     piece_id INTEGER NOT NULL REFERENCES pieces (id),
     file TEXT NOT NULL,
     file_name TEXT NOT NULL,
     bytes INTEGER NOT NULL,
     created_at TEXT NOT NULL
   ) STRICT;
   CREATE TABLE recordings (
     id INTEGER PRIMARY KEY AUTOINCREMENT,
     pupil_id INTEGER NOT NULL REFERENCES pupils (id),
     score_id INTEGER NOT NULL REFERENCES scores (id),
     file TEXT NOT NULL,
     file_name TEXT NOT NULL,
     bytes INTEGER NOT NULL,
     line TEXT NOT NULL,
     received_at TEXT NOT NULL
   ) STRICT;
   CREATE INDEX recordings_by_pupil ON recordings (pupil_id, received_at);
   CREATE TABLE comments (
     id INTEGER PRIMARY KEY AUTOINCREMENT,
     recording_id INTEGER NOT NULL REFERENCES recordings (id),
     idempotency_key TEXT NOT NULL UNIQUE,
     bar_from TEXT NOT NULL,
     bar_to TEXT NOT NULL,
     from_index INTEGER NOT NULL,
     to_index INTEGER NOT NULL CHECK (to_index >= from_index),
     pass INTEGER,
     attempt INTEGER,
     created_at TEXT NOT NULL,
     removed_at TEXT
   ) STRICT;
   CREATE INDEX comments_by_recording ON comments (recording_id, from_index);
   CREATE TABLE comment_versions (
     id INTEGER PRIMARY KEY AUTOINCREMENT,
     comment_id INTEGER NOT NULL REFERENCES comments (id),
     text TEXT NOT NULL,
     saved_at TEXT NOT NULL
   ) STRICT;
   CREATE INDEX versions_by_comment ON comment_versions (comment_id, id);`,
  `CREATE TABLE decisions (
     id INTEGER PRIMARY KEY AUTOINCREMENT,
     pupil_id INTEGER REFERENCES pupils (id),
     piece_id INTEGER REFERENCES pieces (id),
     kind TEXT NOT NULL CHECK (kind IN ('right', 'left', 'preferences')),
     body TEXT NOT NULL,
     created_at TEXT NOT NULL,
     removed_at TEXT
   ) STRICT;
   CREATE INDEX decisions_by_scope ON decisions (pupil_id, piece_id);
   ALTER TABLE recordings ADD COLUMN purpose TEXT;
   ALTER TABLE pupils ADD COLUMN born INTEGER;`,
  `ALTER TABLE scores ADD COLUMN part TEXT;
   CREATE TABLE settings (
     name TEXT PRIMARY KEY,
     value TEXT NOT NULL
   ) STRICT;`,
  `ALTER TABLE pupils ADD COLUMN lesson_day INTEGER CHECK (lesson_day BETWEEN 1 AND 7);
   ALTER TABLE pupils ADD COLUMN lesson_time TEXT;
   ALTER TABLE pupils ADD COLUMN removed_at TEXT;
   ALTER TABLE recordings ADD COLUMN heard_at TEXT;
   ALTER TABLE recordings ADD COLUMN removed_at TEXT;
   ALTER TABLE comments ADD COLUMN whole INTEGER NOT NULL DEFAULT 0;
   ALTER TABLE comments ADD COLUMN settled_at TEXT;
   CREATE TABLE glances (
     recording_id INTEGER PRIMARY KEY REFERENCES recordings (id),
     made_from TEXT NOT NULL,
     body TEXT NOT NULL
   ) STRICT;
   CREATE TABLE arrivals (
     id INTEGER PRIMARY KEY AUTOINCREMENT,
     file TEXT NOT NULL,
     file_name TEXT NOT NULL,
     bytes INTEGER NOT NULL,
     pupil_id INTEGER REFERENCES pupils (id),
     score_id INTEGER REFERENCES scores (id),
     line TEXT NOT NULL,
     received_at TEXT NOT NULL,
     removed_at TEXT
   ) STRICT;
   CREATE INDEX recordings_by_time ON recordings (received_at);
   CREATE INDEX recordings_by_score ON recordings (score_id, received_at);
   CREATE INDEX scores_by_piece ON scores (piece_id);`,
  `CREATE TABLE pedal_plans (
     id INTEGER PRIMARY KEY AUTOINCREMENT,
     piece_id INTEGER NOT NULL REFERENCES pieces (id),
     body TEXT,
     created_at TEXT NOT NULL,
     removed_at TEXT
   ) STRICT;
   CREATE INDEX plans_by_piece ON pedal_plans (piece_id, id);
   CREATE TABLE sessions (
     token_hash TEXT PRIMARY KEY,
     ends_at TEXT NOT NULL
   ) STRICT;
   CREATE TABLE consents (
     pupil_id INTEGER PRIMARY KEY REFERENCES pupils (id),
     given_at TEXT NOT NULL
   ) STRICT;
   ALTER TABLE pieces ADD COLUMN removed_at TEXT;`,
  `ALTER TABLE consents ADD COLUMN adult INTEGER NOT NULL DEFAULT 0;`,
  `CREATE TABLE lesson_sheets (
     id INTEGER PRIMARY KEY AUTOINCREMENT,
     recording_id INTEGER NOT NULL UNIQUE REFERENCES recordings (id),
     created_at TEXT NOT NULL
   ) STRICT;
   CREATE TABLE lesson_sheet_versions (
     id INTEGER PRIMARY KEY AUTOINCREMENT,
     sheet_id INTEGER NOT NULL REFERENCES lesson_sheets (id),
     body TEXT NOT NULL,
     saved_at TEXT NOT NULL
   ) STRICT;
   CREATE INDEX sheet_versions_by_sheet ON lesson_sheet_versions (sheet_id, id);`,
  `CREATE TABLE term_report_versions (
     id INTEGER PRIMARY KEY AUTOINCREMENT,
     pupil_id INTEGER NOT NULL REFERENCES pupils (id),
     body TEXT NOT NULL,
     saved_at TEXT NOT NULL
   ) STRICT;
   CREATE INDEX term_reports_by_pupil ON term_report_versions (pupil_id, id);`,
];

/** How many steps this program knows. */
export const LATEST_VERSION = MIGRATIONS.length;

/** How many steps a database has seen. */
export function versionOf(database: Database): number {
  const row = database.get('PRAGMA user_version');
  return row === null ? 0 : numberOf(row, 'user_version');
}

/**
 * Brings the tables up to date, one step a transaction: after a crash in between, the next start goes on from there.
 * @throws InputError code `unsupported` where a newer program has written the database
 */
export function migrate(database: Database): void {
  const seen = versionOf(database);
  if (seen > LATEST_VERSION) {
    throw new InputError('unsupported', 'This data folder was written by a newer version of Barwise. Open it with that version, or choose another folder.');
  }
  migrateTo(database, LATEST_VERSION);
}

/** Brings the tables to an older state of the program; for rows that were taken from it. */
export function migrateTo(database: Database, version: number): void {
  for (let step = versionOf(database); step < version; step++) apply(database, step);
}

/** One step; does nothing where another process has been quicker. */
function apply(database: Database, step: number): void {
  database.together(() => {
    if (versionOf(database) > step) return;
    database.script(MIGRATIONS[step] ?? '');
    database.script(`PRAGMA user_version = ${step + 1}`);
  });
}
