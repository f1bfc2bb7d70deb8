import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { InputError } from '../../src/base/index.js';
import { openDatabase } from '../../src/store/driver.js';
import { openStore } from '../../src/store/index.js';
import { LATEST_VERSION, migrate, versionOf } from '../../src/store/migrations.js';
import { ownFolder } from './folder.js';

describe('migrations', () => {
  it('bring an empty database to the latest version, and a second run changes nothing', () => {
    const database = openDatabase(':memory:');
    expect(versionOf(database)).toBe(0);
    migrate(database);
    expect(versionOf(database)).toBe(LATEST_VERSION);
    migrate(database);
    expect(versionOf(database)).toBe(LATEST_VERSION);
    database.close();
  });

  it('refuse a folder that a newer program has written, and leave it alone', () => {
    const folder = ownFolder();
    openStore(folder).close();
    const database = openDatabase(join(folder, 'barwise.sqlite'));
    database.script(`PRAGMA user_version = ${LATEST_VERSION + 1}`);
    let refusal: unknown = null;
    try {
      openStore(folder);
    } catch (error) {
      refusal = error;
    }
    expect(refusal).toBeInstanceOf(InputError);
    expect(refusal).toMatchObject({ code: 'unsupported' });
    expect(versionOf(database)).toBe(LATEST_VERSION + 1);
    database.close();
  });
});

describe('the driver', () => {
  it('keeps a write-ahead log, full synchronisation and foreign keys', () => {
    const database = openDatabase(join(ownFolder(), 'a.sqlite'));
    expect(database.get('PRAGMA journal_mode')).toEqual({ journal_mode: 'wal' });
    // 2 = FULL, 1 = on (SQLite's own numbers)
    expect(database.get('PRAGMA synchronous')).toEqual({ synchronous: 2 });
    expect(database.get('PRAGMA foreign_keys')).toEqual({ foreign_keys: 1 });
    database.close();
  });

  it('takes everything back where the work throws half-way', () => {
    const database = openDatabase(':memory:');
    database.script('CREATE TABLE t (n INTEGER)');
    const work = () =>
      database.together(() => {
        database.run('INSERT INTO t VALUES (1)');
        throw new RangeError('half-way');
      });
    expect(work).toThrow(RangeError);
    expect(database.all('SELECT n FROM t')).toEqual([]);
    database.close();
  });
});
