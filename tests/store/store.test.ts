import { readdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { InputError } from '../../src/base/index.js';
import { openStore } from '../../src/store/index.js';
import { fileOf, furnishedStore, ownFolder } from './folder.js';

/** What a call throws. */
function thrownBy(call: () => unknown): unknown {
  try {
    call();
  } catch (error) {
    return error;
  }
  return null;
}

describe('pupils and pieces', () => {
  it('get readable addresses, a number behind the second of one name', () => {
    const store = furnishedStore();
    expect(store.addPupil('Zoë O’Brien-Łuk').slug).toBe('zoe-obrien-łuk');
    expect(store.addPupil('Nell Farrow').slug).toBe('nell-farrow-2');
    expect(store.addPupil('山田').slug).toBe('山田');
    expect(store.addPupil('???').slug).toBe('pupil');
    expect(store.pupil('nell-farrow-2')?.name).toBe('Nell Farrow');
    expect(store.pupil('nobody')).toBeNull();
  });

  it('keep a name as typed, but for control characters and stray spaces', () => {
    const store = furnishedStore();
    expect(store.addPupil('  <b>Ann</b>\u0000\n  Lee ').name).toBe('<b>Ann</b> Lee');
  });

  it.each([
    ['', 'empty'],
    [' \n\t', 'empty'],
    ['x'.repeat(201), 'too-large'],
  ])('refuse the name %j with code %s', (name, code) => {
    const store = furnishedStore();
    const error = thrownBy(() => store.addPupil(name));
    expect(error).toBeInstanceOf(InputError);
    expect(error).toMatchObject({ code });
    expect(store.pupils()).toHaveLength(1);
  });

  it('take a name of exactly 200 characters', () => {
    expect(furnishedStore().addPupil('x'.repeat(200)).name).toHaveLength(200);
  });

  it('give the same piece for the same score file', () => {
    const store = furnishedStore();
    const again = store.addPiece({ title: 'Another title', score: fileOf('copy.musicxml', '<score-partwise/>') });
    expect(again.title).toBe('Harbour Lights');
    expect(store.pieces()).toHaveLength(1);
  });
});

describe('original files', () => {
  it('come back byte for byte after a restart', () => {
    const folder = ownFolder();
    furnishedStore(folder).close();
    const store = openStore(folder);
    const recording = store.recording(1);
    expect(recording && new TextDecoder().decode(store.bytesOf(recording))).toBe('MThd');
    store.close();
  });

  it('are named by their content, never by the name they came under', () => {
    const folder = ownFolder();
    const store = furnishedStore(folder);
    store.addPiece({ title: 'Odd', score: fileOf('../../escape.xml', 'x') });
    // witness: printf x | sha256sum
    expect(readdirSync(join(folder, 'files'))).toContain('2d711642b726b04401627ca9fbac32f5c8530fb1903cc4db02258717921a4881');
    expect(readdirSync(join(folder, 'files')).every((name) => /^[0-9a-f]{64}$/.test(name))).toBe(true);
  });

  it('of an earlier crash, half written under another name, disturb nothing', () => {
    const folder = ownFolder();
    const store = furnishedStore(folder);
    writeFileSync(join(folder, 'files', `${'0'.repeat(64)}.crash.part`), 'half');
    store.addRecording({ pupilId: 1, scoreId: 1, file: fileOf('a.mid', 'new'), line: '' });
    expect(store.recordings()).toHaveLength(2);
  });

  it('that have gone from the folder are named as missing', () => {
    const folder = ownFolder();
    const store = furnishedStore(folder);
    rmSync(join(folder, 'files'), { recursive: true });
    const recording = store.recording(1)!;
    expect(thrownBy(() => store.bytesOf(recording))).toMatchObject({ name: 'InputError', code: 'not-found' });
  });
});

describe('recordings', () => {
  it('are filed once, however often the same file is sent', () => {
    const store = furnishedStore();
    const again = store.addRecording({ pupilId: 1, scoreId: 1, file: fileOf('monday (1).mid', 'MThd'), line: 'x' });
    expect(again.known).toBe(true);
    expect(again.recording.id).toBe(1);
    expect(store.recordings()).toHaveLength(1);
  });

  it('come newest first, with pupil, piece and number of comments', () => {
    const store = furnishedStore();
    store.addRecording({ pupilId: 1, scoreId: 1, file: fileOf('b.mid', 'b'), line: 'x', receivedAt: '2026-03-05T08:00:00.000Z' });
    store.addRecording({ pupilId: 1, scoreId: 1, file: fileOf('c.mid', 'c'), line: 'x', receivedAt: '2026-03-01T08:00:00.000Z' });
    expect(store.recordings().map((recording) => recording.fileName)).toEqual(['b.mid', 'monday.mid', 'c.mid']);
    expect(store.recordings({ pieceId: 99 })).toEqual([]);
    expect(store.recording(1)).toMatchObject({ pupil: { name: 'Nell Farrow' }, piece: { title: 'Harbour Lights' }, comments: 0 });
    expect(store.recording(99)).toBeNull();
  });

  it('need a pupil and a score that are there', () => {
    const store = furnishedStore();
    expect(thrownBy(() => store.addRecording({ pupilId: 99, scoreId: 1, file: fileOf('d.mid', 'd'), line: '' }))).toMatchObject({ code: 'SQLITE_CONSTRAINT_FOREIGNKEY' });
  });
});
