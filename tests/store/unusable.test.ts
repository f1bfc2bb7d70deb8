import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { InputError } from '../../src/base/index.js';
import { openDatabase } from '../../src/store/driver.js';
import { openStore } from '../../src/store/index.js';
import { unsaved } from '../../src/store/unusable.js';
import { fileOf, furnishedStore, onBarSeven, ownFolder } from './folder.js';

/** An error as the system or the database gives it. */
function withCode(code: string): Error {
  return Object.assign(new TypeError('as the system says it'), { code });
}

describe('what cannot be written', () => {
  it('is told as an input error while another program writes, whatever was to be kept', () => {
    const folder = ownFolder();
    furnishedStore(folder);
    const store = openStore(folder, { busyTimeoutMs: 20 });
    const other = openDatabase(join(folder, 'barwise.sqlite'));
    other.script('BEGIN IMMEDIATE');
    const attempts = [
      () => store.addComment(onBarSeven('k1', 'Ring it.')),
      () => store.removeComment(1),
      () => store.setPurpose(1, null),
      () => store.removeDecision(1),
      () => store.setLanguage('american'),
      () => store.choosePart(1, null),
      () => store.addPupil('Nell Farrow'),
      () => store.addPiece({ title: 'Harbour Lights', score: fileOf('other.musicxml', '<score-timewise/>') }),
    ];
    for (const attempt of attempts) {
      expect(attempt).toThrow(InputError);
      expect(attempt).toThrow(expect.objectContaining({ code: 'not-saved' }));
    }
    other.close();
    store.close();
  });

  // codes of POSIX and of SQLite's own list; SQLite puts details of a code behind it
  it.each(['ENOSPC', 'SQLITE_FULL', 'SQLITE_IOERR_WRITE', 'SQLITE_BUSY_SNAPSHOT', 'EROFS'])('is told in words for %s', (code) => {
    expect(unsaved(withCode(code))).toMatchObject({ name: 'InputError', code: 'not-saved' });
  });

  it('stays what it is where the program is at fault', () => {
    const fault = withCode('SQLITE_ERROR');
    expect(unsaved(fault)).toBe(fault);
  });
});
