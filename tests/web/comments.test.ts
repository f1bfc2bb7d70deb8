import { describe, expect, it } from 'vitest';
import { fieldIn, openFurnishedRoom, REVIEW } from './room.js';

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

  it('far larger than any form is cut short', async () => {
    const room = await openFurnishedRoom();
    expect((await room.post(`${REVIEW}/comments`, { text: 'x'.repeat(70_000) })).status).toBe(413);
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
