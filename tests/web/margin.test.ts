import { describe, expect, it } from 'vitest';
import { openFurnishedRoom, REVIEW, type TestRoom } from './room.js';

/** The first form of the page that is sent to an address, as its hidden fields. */
function formTo(body: string, action: string, holding: string): Readonly<Record<string, string>> {
  const form = body.split('<form ').find((one) => one.startsWith(`action="${action}"`) && one.includes(holding)) ?? '';
  const fields = [...form.split('</form>')[0]?.matchAll(/name="(\w+)" value="([^"]*)"/g) ?? []];
  return Object.fromEntries(fields.map(([, name = '', value = '']) => [name, value]));
}

async function body(room: TestRoom, query = ''): Promise<string> {
  return (await room.call(REVIEW + query)).body;
}

describe('the margin of a review', () => {
  it('says what is worth saying, what else was seen and what the recording is taken for', async () => {
    const page = await body(await openFurnishedRoom());
    expect(page).toContain('id="worth-saying"');
    expect(page).toContain('id="also-seen"');
    expect(page).toMatch(/Taken as [a-z -]+: /);
  });

  it('leaves a kind of remark alone, says so, and takes it back', async () => {
    const room = await openFurnishedRoom();
    const before = await body(room);
    const fields = formTo(before, `${REVIEW}/decisions`, 'value="left"');
    const done = await room.post(`${REVIEW}/decisions`, fields);
    expect(done.status).toBe(303);
    const after = await body(room, '?decided=1');
    expect(formTo(after, `${REVIEW}/decisions`, `name="kind" value="${fields['kind']}"`)['aspect']).not.toBe(fields['aspect']);
    expect(after).toContain('it stays away');
    await room.post(`${REVIEW}/decisions/1/remove`, {});
    expect(await body(room, '?undecided=1')).toContain('remarked on again');
    await room.post(`${REVIEW}/decisions/1/restore`, {});
    expect(room.store.decisionsFor({ pupilId: 1, pieceId: 1 })).toHaveLength(1);
  });

  it('puts back no decision about somebody else', async () => {
    const room = await openFurnishedRoom();
    const other = room.store.addPupil('Tam Farrow');
    const { id } = room.store.addDecision({ pupilId: other.id, pieceId: null }, { kind: 'left', value: { aspect: 'tempo', kind: 'slow' } });
    room.store.removeDecision(id);
    expect((await room.post(`${REVIEW}/decisions/${id}/restore`, {})).status).toBe(404);
    expect(room.store.decisionsFor({ pupilId: other.id, pieceId: 1 })).toEqual([]);
  });

  it('calls something right as played, for the pupil or for everybody', async () => {
    const room = await openFurnishedRoom();
    const fields = formTo(await body(room), `${REVIEW}/decisions`, 'value="right"');
    await room.post(`${REVIEW}/decisions`, { ...fields, who: 'everybody' });
    await room.post(`${REVIEW}/decisions`, { ...fields, who: 'pupil' });
    const kept = room.store.decisionsFor({ pupilId: 1, pieceId: 1 });
    expect(kept.map(({ pupilId, pieceId }) => [pupilId, pieceId])).toEqual([[null, 1], [1, 1]]);
    // a remark about one hand is right for that hand
    expect(kept.map(({ kind, value }) => kind === 'right' && value.hand)).toEqual([fields['hand'] ?? null, fields['hand'] ?? null]);
  });

  it.each([{ places: '' }, { places: '3-x' }, { places: '999-999' }])('calls nothing right where the form names no bar (%j)', async (odd) => {
    const room = await openFurnishedRoom();
    const fields = formTo(await body(room), `${REVIEW}/decisions`, 'value="right"');
    expect((await room.post(`${REVIEW}/decisions`, { ...fields, ...odd, who: 'pupil' })).status).toBe(422);
    expect(room.store.decisionsFor({ pupilId: 1, pieceId: 1 })).toEqual([]);
  });

  it('a remark written down is a comment on its bars', async () => {
    const room = await openFurnishedRoom();
    const fields = formTo(await body(room), `${REVIEW}/comments`, 'name="text" value=');
    expect((await room.post(`${REVIEW}/comments`, fields)).status).toBe(303);
    expect(room.store.comments(1)).toHaveLength(1);
  });

  it('is told what a recording is for, and guesses again', async () => {
    const room = await openFurnishedRoom();
    await room.post(`${REVIEW}/purpose`, { purpose: 'fromMemory' });
    expect(await body(room)).toContain('Meant as playing from memory.');
    await room.post(`${REVIEW}/purpose`, { purpose: '' });
    expect(await body(room)).toContain('Taken as ');
  });

  it.each([
    ['decisions', { decision: 'left', aspect: 'smell', kind: 'x' }, 422], ['purpose', { purpose: 'showing off' }, 422], ['decisions/99/remove', {}, 404], ['decisions/x/restore', {}, 404],
  ])('%s with %o is refused in words', async (path, fields, status) => {
    const room = await openFurnishedRoom();
    expect((await room.post(`${REVIEW}/${path}`, fields)).status).toBe(status);
    expect(room.store.decisionsFor({ pupilId: 1, pieceId: 1 })).toEqual([]);
  });
});
