import { describe, expect, it } from 'vitest';
import { openTestRoom, sample, type TestRoom } from './room.js';

const PIECE = '/pieces/rowing-home';
const PEDAL = `${PIECE}/pedal`;

/** A room with one piece, its pedal printed throughout, and a recording whose foot is planned to be late over many changes. */
async function pedalRoom(): Promise<TestRoom> {
  const room = await openTestRoom();
  const pupil = room.store.addPupil('Jonas Brekkewood');
  const piece = room.store.addPiece({ title: 'Rowing Home', score: sample('rowing-home/score.musicxml') });
  const scoreId = room.store.scoreOfPiece(piece.id).id;
  room.store.addRecording({ pupilId: pupil.id, scoreId, file: sample('rowing-home/jonas-brekkewood-2025-10-14.mid'), line: 'once through', receivedAt: '2025-10-07T20:15:00' });
  return room;
}

/** Ticks of the table's rows. */
const rowsOf = (body: string): number[] => [...body.matchAll(/id="plan-\d+" data-plan-row="(\d+)"/g)].map(([, tick]) => Number(tick));
/** Where the answer leads. */
const target = (headers: { readonly location?: string | undefined }): string => String(headers.location);

describe('changing the pedal plan', () => {
  it('moves, sets, takes away, and goes back, each as a version that can be undone', async () => {
    const room = await pedalRoom();
    const before = rowsOf((await room.call(PIECE)).body);
    const [, first = 0, second = 0, third = 0] = before;

    const later = await room.post(PEDAL, { act: `later ${second}` });
    expect(later.status).toBe(303);
    const moved = rowsOf((await room.call(target(later.headers))).body);
    expect(moved).toHaveLength(before.length);
    expect(moved[2]).toBeGreaterThan(second);
    expect(moved[2]).toBeLessThan(third);
    expect(target(later.headers)).toBe(`${PIECE}?planned=1&at=${moved[2]}#plan-${moved[2]}`);

    const taken = await room.post(PEDAL, { act: `remove ${first}` });
    const page = (await room.call(target(taken.headers))).body;
    expect(rowsOf(page)).not.toContain(first);
    expect(page).toContain('The plan is changed');

    await room.post(PEDAL, { act: 'ring', at: String(first), until: String(third) });
    const rung = (await room.call(PIECE)).body;
    expect(rowsOf(rung).slice(1, 3)).toEqual([first, third]);
    expect(rung).toContain('<td>let it ring</td>');

    await room.post(`${PEDAL}/3/remove`, {});
    expect(rowsOf((await room.call(PIECE)).body)).not.toContain(first);
    await room.post(`${PEDAL}/3/restore`, {});
    expect(rowsOf((await room.call(PIECE)).body)).toContain(first);

    await room.post(PEDAL, { act: 'program' });
    expect(rowsOf((await room.call(PIECE)).body)).toEqual(before);
    await room.post(PEDAL, { act: 'version 1' });
    expect(rowsOf((await room.call(PIECE)).body)).toEqual(moved);
  });

  it('changes the review of every recording, and back', async () => {
    const room = await pedalRoom();
    const review = async (): Promise<string> => (await room.call('/pupils/jonas-brekkewood/recordings/1')).body;
    expect(await review()).toMatch(/ring on into|rings on into/);
    // one pedal from the first bar on: what the foot carries over is what she asked for
    await room.post(PEDAL, { act: 'ring', at: '0', until: '99999999' });
    expect(await review()).not.toMatch(/ring on into|rings on into/);
    await room.post(`${PEDAL}/1/remove`, {});
    expect(await review()).toMatch(/ring on into|rings on into/);
  });

  it.each([
    [{}], [{ act: 'burn 960' }], [{ act: 'move 0' }], [{ act: 'ring', at: '1e9' }], [{ act: 'ring', at: '-4' }], [{ act: 'ring', at: '0', until: '0' }], [{ act: 'remove 0' }], [{ act: 'earlier 0' }], [{ act: 'ring', at: '999999999' }],
  ])('says what cannot be done and changes nothing: %j', async (fields) => {
    const room = await pedalRoom();
    const { status, body } = await room.post(PEDAL, fields);
    expect(status).toBe(422);
    expect(body).toContain('This could not be done');
    expect(room.store.planVersions(1)).toEqual([]);
  });

  it('knows no plan of another piece, and no place that has gone', async () => {
    const room = await pedalRoom();
    const other = room.store.addPiece({ title: 'Gull Chase', score: sample('gull-chase/score.musicxml') });
    const { id } = room.store.setPlan(other.id, null);
    for (const path of [`${PEDAL}/${id}/remove`, `${PEDAL}/${id}/restore`, '/pieces/nowhere/pedal']) expect((await room.post(path, {})).status).toBe(404);
    expect((await room.post(PEDAL, { act: `version ${id}` })).status).toBe(404);
    expect((await room.post(PEDAL, { act: 'remove 1' })).status).toBe(404);
    expect(room.store.planVersions(1)).toEqual([]);
  });

  it('has forms in every bar’s drawer, so that no script is needed', async () => {
    const room = await pedalRoom();
    const { body } = await room.call(PIECE);
    const drawer = /<section class="drawer" id="bar-5"[\s\S]*?<\/section>/.exec(body)?.[0] ?? '';
    expect(drawer).toContain(`action="${PEDAL}"`);
    // six quavers in the bar, and the ends of this bar, the next, and the fourth from here
    expect(drawer.match(/<select name="at"[\s\S]*?<\/select>/)?.[0].match(/<option/g)).toHaveLength(6);
    expect(drawer).toContain('>the end of bar 5</option>');
    expect(drawer).toContain('>the end of bar 8</option>');
    for (const act of ['pedal', 'ring', 'none']) expect(drawer).toContain(`name="act" value="${act}"`);
  });
});
