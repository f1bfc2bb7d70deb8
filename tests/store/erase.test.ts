import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { InputError } from '../../src/base/index.js';
import { openStore } from '../../src/store/index.js';
import { LATEST_VERSION } from '../../src/store/migrations.js';
import { fileOf, furnishedStore, onBarSeven, ownFolder } from './folder.js';

/** Files of the data folder, its database's log too, in which a text stands. */
function filesWith(folder: string, text: string): readonly string[] {
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name))
    .filter((path) => readFileSync(path).includes(text));
}

/** Words that stand nowhere else. */
const WORDS = { name: 'Quillavery Zennor', file: 'zennor-tuesday.mid', text: 'The barnacle bars: once more, slowly.', older: 'The limpet bars.', content: 'MThd of Zennor', line: 'mussels twice' };

/** A store with a pupil of whom everything is kept that can be. */
function storeWithZennor(folder: string) {
  const store = furnishedStore(folder);
  const pupil = store.addPupil(WORDS.name);
  const { recording } = store.addRecording({ pupilId: pupil.id, scoreId: 1, file: fileOf(WORDS.file, WORDS.content), line: WORDS.line });
  const { id } = store.addComment({ ...onBarSeven('z', WORDS.older), recordingId: recording.id });
  store.editComment(id, WORDS.text);
  store.removeComment(id);
  store.keepGlance(recording.id, { madeFrom: 'x', body: WORDS.text });
  store.addDecision({ pupilId: pupil.id, pieceId: null }, { kind: 'left', value: { aspect: 'touch', kind: 'dots' } });
  store.addArrival({ file: fileOf('zennor-waits.mid', 'MThd waits of Zennor'), pupilId: pupil.id, scoreId: null, line: '' });
  return { store, pupil, recording };
}

describe('deleting for good', () => {
  it('leaves no trace of a pupil in any file of the folder, and everybody else as they were', () => {
    const folder = ownFolder();
    const { store, pupil } = storeWithZennor(folder);
    const words = [...Object.values(WORDS), 'zennor', 'Zennor'];
    for (const word of words) expect(filesWith(folder, word), word).not.toEqual([]);
    expect(store.erase('pupils', pupil.id)).toHaveLength(2);
    for (const word of words) expect(filesWith(folder, word), word).toEqual([]);
    expect(store.pupils().map(({ name }) => name)).toEqual(['Nell Farrow']);
    expect(new TextDecoder().decode(store.bytesOf(store.recording(1)!))).toBe('MThd');
  });

  it('keeps a file that somebody else has sent too', () => {
    const folder = ownFolder();
    const { store, pupil } = storeWithZennor(folder);
    store.addRecording({ pupilId: 1, scoreId: 1, file: fileOf('mine.mid', WORDS.content), line: '' });
    expect(store.erase('pupils', pupil.id)).toHaveLength(1);
    expect(filesWith(folder, WORDS.content)).toHaveLength(1);
    expect(filesWith(folder, WORDS.name)).toEqual([]);
  });

  it('takes one recording with its comments, and leaves the pupil', () => {
    const folder = ownFolder();
    const { store, recording } = storeWithZennor(folder);
    store.erase('recordings', recording.id);
    for (const word of [WORDS.file, WORDS.text, WORDS.older, WORDS.content, WORDS.line]) expect(filesWith(folder, word), word).toEqual([]);
    expect(filesWith(folder, WORDS.name)).not.toEqual([]);
  });

  it('does nothing where there is no such row', () => {
    const store = furnishedStore();
    expect(store.erase('pupils', 99)).toEqual([]);
    expect(store.recordings()).toHaveLength(1);
  });
});

describe('a copy of everything', () => {
  it('gives the same room back in another folder', () => {
    const { store } = storeWithZennor(ownFolder());
    const archive: unknown = JSON.parse(JSON.stringify(store.takeArchive()));
    const files = ['MThd', WORDS.content, 'MThd waits of Zennor', '<score-partwise/>'].map((text) => new TextEncoder().encode(text));
    const other = openStore(ownFolder());
    other.addPupil('Somebody who goes');
    other.putBack(archive, files);
    expect(other.takeArchive()).toEqual(store.takeArchive());
    expect(new TextDecoder().decode(other.bytesOf(other.recordings()[0]!))).toBe(WORDS.content);
    other.close();
  });

  it.each([
    ['something else', { format: 'other' }, 'bad-value'],
    ['a newer program’s', { format: 'barwise-room-archive/1', version: LATEST_VERSION + 1, tables: {} }, 'unsupported'],
    ['rows that point nowhere', { format: 'barwise-room-archive/1', version: 1, tables: { scores: [{ id: 1, piece_id: 9, file: 'x', file_name: 'x', bytes: 1, created_at: '' }] } }, 'bad-value'],
    ['a column of the wrong kind', { format: 'barwise-room-archive/1', version: 1, tables: { pupils: [{ id: 1, slug: {}, name: 'x', invented: 0, created_at: '' }] } }, 'bad-value'],
  ])('that is %s changes nothing', (_, archive, code) => {
    const store = furnishedStore();
    const before = store.takeArchive();
    let thrown: unknown = null;
    try {
      store.putBack(archive, []);
    } catch (error) {
      thrown = error;
    }
    expect(thrown).toBeInstanceOf(InputError);
    expect(thrown).toMatchObject({ code });
    expect(store.takeArchive()).toEqual(before);
  });

  it('without its files changes nothing', () => {
    const { store } = storeWithZennor(ownFolder());
    const other = furnishedStore();
    const before = other.takeArchive();
    expect(() => other.putBack(store.takeArchive(), [])).toThrow('Files that this copy speaks of are not in it');
    expect(other.takeArchive()).toEqual(before);
    expect(new TextDecoder().decode(other.bytesOf(other.recording(1)!))).toBe('MThd');
  });
});
