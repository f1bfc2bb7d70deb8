import { chmodSync, existsSync, readdirSync, statSync, utimesSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { openStore } from '../../src/store/index.js';
import { fileOf, furnishedStore, handClock, onBarSeven, ownFolder } from './folder.js';

/** What group and others may do with a file or folder; "0" is nothing. */
function othersMay(path: string): string {
  return (statSync(path).mode & 0o077).toString(8);
}

describe.skipIf(process.platform === 'win32')('what pupils sent', () => {
  it('can be read by nobody else: database, its side files, originals', () => {
    const folder = ownFolder();
    // the data folder itself may be one that was shared before
    chmodSync(folder, 0o755);
    const store = furnishedStore(folder);
    store.addComment(onBarSeven('k1', 'Ring it.'));
    const found = ['barwise.sqlite', 'barwise.sqlite-wal', 'barwise.sqlite-shm', 'files', ...readdirSync(join(folder, 'files')).map((name) => join('files', name))];
    // a score and a recording are the two originals
    expect(found).toHaveLength(6);
    expect(found.filter((name) => othersMay(join(folder, name)) !== '0')).toEqual([]);
  });

  it('is made private where an older room left it open', () => {
    const folder = ownFolder();
    openStore(folder).close();
    chmodSync(join(folder, 'barwise.sqlite'), 0o644);
    chmodSync(join(folder, 'files'), 0o755);
    openStore(folder).close();
    expect([othersMay(join(folder, 'barwise.sqlite')), othersMay(join(folder, 'files'))]).toEqual(['0', '0']);
  });
});

describe('half-written files', () => {
  const ID = 'ab'.repeat(32);
  const NOON = new Date('2026-03-03T12:00:00Z');
  const names = { old: `${ID}.00000000-0000-4000-8000-000000000001.part`, edge: `${ID}.00000000-0000-4000-8000-000000000002.part`, other: 'notes.part' };

  it('of a crash are cleared at the next start; younger ones and other people’s files stay', () => {
    const folder = ownFolder();
    const store = furnishedStore(folder);
    const kept = store.scoreOfPiece(1);
    const put = (name: string, at: string): void => {
      writeFileSync(join(folder, 'files', name), 'MT');
      utimesSync(join(folder, 'files', name), new Date(at), new Date(at));
    };
    put(names.old, '2026-03-03T10:59:59Z');
    // exactly an hour old: another room may still be writing
    put(names.edge, '2026-03-03T11:00:00Z');
    put(names.other, '2020-01-01T00:00:00Z');
    const again = openStore(folder, handClock(NOON.toISOString()));
    expect(Object.values(names).map((name) => existsSync(join(folder, 'files', name)))).toEqual([false, true, true]);
    expect(again.bytesOf(kept)).toEqual(Buffer.from(fileOf('', '<score-partwise/>').bytes));
    again.close();
  });
});
