import { describe, expect, it } from 'vitest';
import { InputError } from '../../src/base/index.js';
import { LONGEST_COMMENT, openStore } from '../../src/store/index.js';
import { fileOf, furnishedStore, handClock, onBarSeven, ownFolder } from './folder.js';

describe('a comment', () => {
  it('is there after a restart without a tidy end: a second connection sees it at once', () => {
    const folder = ownFolder();
    const store = furnishedStore(folder);
    store.addComment(onBarSeven('k1', 'Ring the B flat.'));
    const other = openStore(folder);
    expect(other.comments(1).map((comment) => comment.text)).toEqual(['Ring the B flat.']);
    other.close();
  });

  it('is one comment when the same form comes twice', () => {
    const store = furnishedStore();
    const first = store.addComment(onBarSeven('k1', 'Slower here.'));
    const second = store.addComment(onBarSeven('k1', 'Slower here.\r\n'));
    expect(second.id).toBe(first.id);
    expect(store.comments(1)).toHaveLength(1);
    expect(store.commentVersions(first.id)).toHaveLength(1);
  });

  it('is edited when the same form comes with another text, and the first text is kept', () => {
    const store = furnishedStore();
    const { id } = store.addComment(onBarSeven('k1', 'Slower.'));
    store.addComment(onBarSeven('k1', 'Slower, hands apart.'));
    expect(store.comments(1).map((comment) => comment.text)).toEqual(['Slower, hands apart.']);
    expect(store.commentVersions(id).map((version) => version.text)).toEqual(['Slower.', 'Slower, hands apart.']);
  });

  it('follows its form when the bars or the try are changed there', () => {
    const store = furnishedStore();
    store.addComment(onBarSeven('k1', 'Slower.'));
    store.addComment({ ...onBarSeven('k1', 'Slower.'), bars: ['7', '9'], barIndexes: [6, 8], pass: 1, attempt: 2 });
    expect(store.comments(1)).toMatchObject([{ bars: ['7', '9'], barIndexes: [6, 8], pass: 1, attempt: 2, text: 'Slower.' }]);
  });

  it('goes and comes back, with its text', () => {
    const clock = handClock('2026-03-03T18:00:00.000Z');
    const store = furnishedStore(ownFolder(), clock.now);
    const { id } = store.addComment(onBarSeven('k1', 'Count.'));
    expect(store.removeComment(id).removedAt).toBe('2026-03-03T18:00:00.000Z');
    expect(store.comments(1)).toEqual([]);
    expect(store.recording(1)?.comments).toBe(0);
    store.restoreComment(id);
    expect(store.comments(1).map((comment) => comment.text)).toEqual(['Count.']);
  });

  it('that was removed comes back when its form is sent once more', () => {
    const store = furnishedStore();
    const { id } = store.addComment(onBarSeven('k1', 'Count.'));
    store.removeComment(id);
    store.addComment(onBarSeven('k1', 'Count.'));
    expect(store.comments(1).map((comment) => comment.id)).toEqual([id]);
  });

  it('keeps every text with its moment; the same text again adds none', () => {
    const clock = handClock('2026-03-03T18:00:00.000Z');
    const store = furnishedStore(ownFolder(), clock.now);
    const { id } = store.addComment(onBarSeven('k1', 'One.'));
    clock.set('2026-03-03T18:05:00.000Z');
    store.editComment(id, 'Two.');
    clock.set('2026-03-03T18:06:00.000Z');
    const last = store.editComment(id, 'Two.');
    expect(last.editedAt).toBe('2026-03-03T18:05:00.000Z');
    expect(store.commentVersions(id)).toEqual([
      { text: 'One.', savedAt: '2026-03-03T18:00:00.000Z' },
      { text: 'Two.', savedAt: '2026-03-03T18:05:00.000Z' },
    ]);
  });

  it.each([
    ['', 'empty'],
    [' \n ', 'empty'],
    ['x'.repeat(LONGEST_COMMENT + 1), 'too-large'],
  ])('is refused without a usable text (%#)', (text, code) => {
    const store = furnishedStore();
    const call = () => store.addComment(onBarSeven('k1', text));
    expect(call).toThrow(InputError);
    expect(call).toThrow(expect.objectContaining({ code }));
    expect(store.comments(1)).toEqual([]);
  });

  it('of exactly the longest length is taken', () => {
    expect(furnishedStore().addComment(onBarSeven('k1', 'x'.repeat(LONGEST_COMMENT))).text).toHaveLength(LONGEST_COMMENT);
  });

  it('does not wander to another recording with its key', () => {
    const store = furnishedStore();
    store.addRecording({ pupilId: 1, scoreId: 1, file: fileOf('b.mid', 'b'), line: '' });
    store.addComment(onBarSeven('k1', 'Here.'));
    expect(() => store.addComment({ ...onBarSeven('k1', 'There.'), recordingId: 2 })).toThrow(expect.objectContaining({ name: 'InputError', code: 'not-found' }));
    expect(store.comments(1).map((comment) => comment.text)).toEqual(['Here.']);
  });

  it('stands in the order of the bars', () => {
    const store = furnishedStore();
    store.addComment(onBarSeven('a', 'seven'));
    store.addComment({ ...onBarSeven('b', 'two'), bars: ['2', '3'], barIndexes: [1, 2], pass: 1, attempt: 2 });
    expect(store.comments(1).map((comment) => [comment.text, comment.bars, comment.attempt])).toEqual([
      ['two', ['2', '3'], 2],
      ['seven', ['7', '7'], null],
    ]);
  });

  it('cannot run backwards over the bars', () => {
    const store = furnishedStore();
    expect(() => store.addComment({ ...onBarSeven('a', 'x'), barIndexes: [6, 5] })).toThrow(expect.objectContaining({ code: 'SQLITE_CONSTRAINT_CHECK' }));
  });
});
