import { describe, expect, it } from 'vitest';
import { openFurnishedRoom } from './room.js';

const PUPIL = '/pupils/mei-castellow';
const REVIEW = `${PUPIL}/recordings/1`;
const USUAL = { 'born': '', 'strict-tempo': 'usual', 'strict-ornaments': 'usual', 'strict-pedal': 'usual' };

describe('what is asked of a pupil’s reviews', () => {
  it('is saved, shown on the form and where it acts, and taken back', async () => {
    const room = await openFurnishedRoom();
    expect((await room.call(REVIEW)).body).not.toContain('class="asked"');
    const saved = await room.post(`${PUPIL}/asks`, { ...USUAL, 'born': '2018', 'strict-pedal': 'strict', 'look-rhythm': 'yes' });
    expect(saved.status).toBe(303);
    const page = (await room.call(String(saved.headers.location).split('#')[0]!)).body;
    expect(page).toContain('value="2018"');
    expect(page).toContain('<option value="strict" selected>strictly</option>');
    expect(page).toContain('name="look-rhythm" value="yes" checked');
    // the recording is of 2025: seven years
    const review = (await room.call(REVIEW)).body;
    expect(review).toContain('Under nine, so one remark, written for the parent; pedal taken strictly; rhythm looked at first.');
    expect(review.match(/<span class="number">/g)).toHaveLength(1);
    const decision = /asked=(\d+)/.exec(String(saved.headers.location))![1]!;
    expect((await room.post(`${PUPIL}/asks/undo`, { decision, born: '' })).status).toBe(303);
    expect(room.store.pupil('mei-castellow')?.born).toBeNull();
    expect((await room.call(REVIEW)).body).not.toContain('class="asked"');
  });

  it.each([
    ['a year that is none', { ...USUAL, born: 'soon' }],
    ['a strictness that is none', { ...USUAL, 'strict-tempo': 'cruel' }],
  ])('%s is refused, and nothing is kept', async (_, fields) => {
    const room = await openFurnishedRoom();
    expect((await room.post(`${PUPIL}/asks`, fields)).status).toBe(422);
    expect(room.store.decisionsFor({ pupilId: 1, pieceId: 1 })).toEqual([]);
    expect(room.store.pupil('mei-castellow')?.born).toBeNull();
  });

  it('what is another pupil’s is not taken back here', async () => {
    const room = await openFurnishedRoom();
    const other = room.store.addPupil('Tam Farrow');
    const { id } = room.store.addDecision({ pupilId: other.id, pieceId: null }, { kind: 'preferences', value: { strictness: {}, lookAt: ['pedal'] } });
    expect((await room.post(`${PUPIL}/asks/undo`, { decision: String(id), born: '' })).status).toBe(404);
    expect(room.store.decisionsFor({ pupilId: other.id, pieceId: 1 })).toHaveLength(1);
  });
});
