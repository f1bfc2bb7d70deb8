import { rmSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { openDatabase } from '../../src/store/driver.js';
import { LONGEST_COMMENT } from '../../src/store/index.js';
import { LARGEST_COMMENT_FORM_BYTES } from '../../src/web/commentForm.js';
import { fieldIn, MEI_OCTOBER, openFurnishedRoom, openTestRoom, plainPipeline, REVIEW, ROWING_HOME, sample, type TestRoom } from './room.js';

describe('a comment without script', () => {
  it('is written, changed, taken off and put back by plain forms, each time back at its bar', async () => {
    const room = await openFurnishedRoom();
    const page = await room.call(REVIEW);
    const key = fieldIn(page.body, 'key');

    const written = await room.post(`${REVIEW}/comments`, { key, from: '7', to: '8', try: '1.1', text: 'Left hand alone.' });
    expect([written.status, written.headers.location]).toEqual([303, `${REVIEW}#bar-7`]);
    expect(room.store.comments(1)[0]).toMatchObject({ bars: ['7', '8'], barIndexes: [7, 8], pass: 1, attempt: 1, text: 'Left hand alone.' });
    expect((await room.call(REVIEW)).body).toContain('Bars 7–8, first try');

    const changed = await room.post(`${REVIEW}/comments/1`, { text: 'Left hand alone, slowly.' });
    expect([changed.status, changed.headers.location]).toEqual([303, `${REVIEW}#bar-7`]);
    expect(room.store.commentVersions(1)).toHaveLength(2);

    const removed = await room.post(`${REVIEW}/comments/1/remove`, {});
    expect(removed.headers.location).toBe(`${REVIEW}?removed=1#bar-7`);
    const after = await room.call(`${REVIEW}?removed=1`);
    expect(after.body).not.toContain('Left hand alone, slowly.');
    expect(after.body).toContain(`action="${REVIEW}/comments/1/restore"`);

    await room.post(`${REVIEW}/comments/1/restore`, {});
    expect((await room.call(REVIEW)).body).toContain('Left hand alone, slowly.');
  });

  it('sent twice is one comment', async () => {
    const room = await openFurnishedRoom();
    const key = fieldIn((await room.call(REVIEW)).body, 'key');
    await Promise.all([1, 2, 3].map(() => room.post(`${REVIEW}/comments`, { key, from: '7', text: 'Once.' })));
    expect(room.store.comments(1).map((comment) => comment.text)).toEqual(['Once.']);
  });

  it('that is empty or far too long comes back with what was typed', async () => {
    const room = await openFurnishedRoom();
    const key = crypto.randomUUID();
    const empty = await room.post(`${REVIEW}/comments`, { key, from: '7', text: '  ' });
    expect(empty.status).toBe(422);
    expect(empty.body).toContain('Nothing was written, so nothing was saved.');
    const long = await room.post(`${REVIEW}/comments`, { key, from: '7', text: `<b>${'x'.repeat(8000)}` });
    expect(long.status).toBe(413);
    expect(long.body).toContain('&lt;b&gt;xxx');
    expect(long.body).toContain(`name="key" value="${key}"`);
    expect(room.store.comments(1)).toEqual([]);
  });

  it.each([
    [{ from: '7', text: 'x' }, 422],
    [{ key: 'not-a-key', from: '7', text: 'x' }, 422],
    [{ key: '0'.repeat(36), from: '999', text: 'x' }, 422],
    [{ key: '0'.repeat(36), from: '-1', text: 'x' }, 422],
    [{ key: '0'.repeat(36), from: '1.5', text: 'x' }, 422],
    [{ key: '0'.repeat(36), from: '7', to: '1e9', text: 'x' }, 422],
    // "no bar" must not become bar 0
    [{ key: '0'.repeat(36), from: '', text: 'x' }, 422],
    [{ key: '0'.repeat(36), text: 'x' }, 422],
    // Mei played bar 7 twice, both in the first pass
    [{ key: '0'.repeat(36), from: '7', try: '1.9', text: 'x' }, 422],
    [{ key: '0'.repeat(36), from: '7', try: '2.1', text: 'x' }, 422],
    [{ key: '0'.repeat(36), from: '7', try: 'second', text: 'x' }, 422],
  ])('with an odd form is refused (%#)', async (fields, status) => {
    const room = await openFurnishedRoom();
    expect((await room.post(`${REVIEW}/comments`, fields as Record<string, string>)).status).toBe(status);
    expect(room.store.comments(1)).toEqual([]);
  });

  it('of another recording is not reached through this one', async () => {
    const room = await openFurnishedRoom();
    const { id: scoreId } = room.store.scoreOfPiece(1);
    room.store.addRecording({ pupilId: 1, scoreId, file: { name: 'b.mid', bytes: new Uint8Array([1]) }, line: '' });
    room.store.addComment({ recordingId: 2, key: crypto.randomUUID(), bars: ['1', '1'], barIndexes: [1, 1], text: 'Elsewhere.' });
    expect((await room.post(`${REVIEW}/comments/1`, { text: 'Mine now.' })).status).toBe(404);
    expect((await room.post(`${REVIEW}/comments/1/remove`, {})).status).toBe(404);
    expect(room.store.comments(2).map((comment) => comment.text)).toEqual(['Elsewhere.']);
  });

  it('is as long as comments may be, in any writing', async () => {
    const room = await openFurnishedRoom();
    // three bytes a character in UTF-8, nine in a form
    const text = '音'.repeat(LONGEST_COMMENT);
    expect((await room.post(`${REVIEW}/comments`, { key: crypto.randomUUID(), from: '7', text })).status).toBe(303);
    expect(room.store.comments(1)[0]?.text).toBe(text);
  });

  it('comes back whole where it is ten times too long in any writing', async () => {
    const room = await openFurnishedRoom();
    const text = '音'.repeat(10 * LONGEST_COMMENT);
    const { status, body } = await room.post(`${REVIEW}/comments`, { key: crypto.randomUUID(), from: '7', text });
    expect(status).toBe(413);
    expect(body).toContain(`${text}</textarea>`);
  });

  it('far larger than any form is not read; the page says where the text still is', async () => {
    const room = await openFurnishedRoom();
    const { status, body } = await room.post(`${REVIEW}/comments`, { text: 'x'.repeat(LARGEST_COMMENT_FORM_BYTES) });
    expect(status).toBe(413);
    expect(body).toContain('What was sent is too long. Go back: what you wrote is still in its box.');
  });
});

/** Another program is in the middle of writing to the room's database; gone after the test. */
function lock(room: TestRoom): { readonly release: () => void } {
  const other = openDatabase(join(room.store.folder, 'barwise.sqlite'));
  other.script('BEGIN IMMEDIATE');
  return { release: () => other.close() };
}

describe('a comment that cannot be saved', () => {
  it('comes back, in a form that can be sent again, while the database is locked', async () => {
    const room = await openFurnishedRoom();
    const fields = { key: crypto.randomUUID(), from: '7', to: '8', try: '1.2', text: 'Ring <b>it</b>.' };
    const { release } = lock(room);
    const refused = await room.post(`${REVIEW}/comments`, fields);
    release();
    expect(refused.status).toBe(507);
    expect(refused.body).toContain('Another program has the data folder’s database in use. So nothing was saved.');
    expect(refused.body).toContain('Ring &lt;b&gt;it&lt;/b&gt;.</textarea>');
    for (const name of ['key', 'from', 'to', 'try'] as const) expect(fieldIn(refused.body, name)).toBe(fields[name]);
    expect((await room.post(`${REVIEW}/comments`, fields)).status).toBe(303);
  });

  it('comes back where its recording is gone', async () => {
    const room = await openFurnishedRoom();
    const { status, body } = await room.post('/pupils/mei-castellow/recordings/2/comments', { key: crypto.randomUUID(), from: '7', text: 'Ring it.' });
    expect(status).toBe(404);
    expect(body).toContain('The recording is no longer here.');
    expect(body).toContain('Ring it.</textarea>');
  });

  it('comes back where the program itself is at fault, and the log has no word of it', async () => {
    const pipeline = { ...plainPipeline(), score: () => Promise.reject(new RangeError('Ring it.')) };
    const room = await openTestRoom(pipeline);
    room.store.addPupil('Mei Castellow');
    const piece = room.store.addPiece({ title: 'Rowing Home', score: sample(ROWING_HOME) });
    room.store.addRecording({ pupilId: 1, scoreId: room.store.scoreOfPiece(piece.id).id, file: sample(MEI_OCTOBER), line: '' });
    const { status, body } = await room.post(`${REVIEW}/comments`, { key: crypto.randomUUID(), from: '7', text: 'Ring it.' });
    expect(status).toBe(500);
    expect(body).toContain('Ring it.</textarea>');
    expect(room.log).toHaveLength(1);
    expect(room.log.join()).not.toContain('Ring it.');
  });

  it('offers to try again where it was to be taken off', async () => {
    const room = await openFurnishedRoom();
    room.store.addComment({ recordingId: 1, key: crypto.randomUUID(), bars: ['7', '7'], barIndexes: [7, 7], text: 'Ring it.' });
    const { release } = lock(room);
    const { status, body } = await room.post(`${REVIEW}/comments/1/remove`, {});
    release();
    expect(status).toBe(507);
    expect(body).toContain(`action="${REVIEW}/comments/1/remove"`);
    expect(body).not.toContain('<textarea');
  });

  it('is told to scripts in JSON, whatever the reason', async () => {
    const room = await openFurnishedRoom();
    const json = { accept: 'application/json' };
    const { release } = lock(room);
    const locked = await room.post(`${REVIEW}/comments`, { key: crypto.randomUUID(), from: '7', text: 'Ring it.' }, json);
    release();
    const long = await room.post(`${REVIEW}/comments`, { text: 'x'.repeat(LARGEST_COMMENT_FORM_BYTES) }, json);
    const gone = await room.post('/pupils/nobody/recordings/1/comments', { text: 'x' }, json);
    expect([locked, long, gone].map(({ status, body }) => [status, Object.keys(JSON.parse(body) as object)])).toEqual([[507, ['error']], [413, ['error']], [404, ['error']]]);
  });

  it('counts as saved where only the score is gone by the time it is', async () => {
    const room = await openFurnishedRoom();
    room.store.addComment({ recordingId: 1, key: crypto.randomUUID(), bars: ['7', '8'], barIndexes: [7, 8], text: 'Ring it.' });
    rmSync(join(room.store.folder, 'files'), { recursive: true });
    const answer = await room.post(`${REVIEW}/comments/1`, { text: 'Ring it twice.' }, { accept: 'application/json' });
    expect(JSON.parse(answer.body)).toEqual({ id: 1, where: 'bars 7–8', href: '#score', text: 'Ring it twice.' });
  });
});

describe('a comment with script', () => {
  const json = { accept: 'application/json' };

  it('is on the disk before the answer that makes the page say "saved"', async () => {
    const room = await openFurnishedRoom();
    const key = crypto.randomUUID();
    const answer = await room.post(`${REVIEW}/comments`, { key, from: '7', text: 'Ring it.' }, json);
    expect(JSON.parse(answer.body)).toEqual({ id: 1, where: 'bar 7', href: '#bar-7', text: 'Ring it.' });
    expect(room.store.comments(1)).toHaveLength(1);
    await room.post(`${REVIEW}/comments`, { key, from: '7', text: 'Ring it twice.' }, json);
    expect(room.store.comments(1).map((comment) => comment.text)).toEqual(['Ring it twice.']);
  });

  it('is refused in words', async () => {
    const room = await openFurnishedRoom();
    const answer = await room.post(`${REVIEW}/comments`, { key: crypto.randomUUID(), from: '7', text: '' }, json);
    expect(answer.status).toBe(422);
    expect(JSON.parse(answer.body)).toEqual({ error: 'Nothing was written, so nothing was saved. Write something, or take the comment off.' });
  });
});
