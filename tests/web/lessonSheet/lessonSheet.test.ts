import { describe, expect, it } from 'vitest';
import { openFurnishedRoom, REVIEW, type TestRoom } from '../room.js';

const SHEET = `${REVIEW}/sheet`;

/** Fields of a form that is filled in. */
const filled = { well: 'The melody sang.', from0: '7', to0: '8', words0: 'Change the pedal on the bass only.', practise0: 'Left hand and foot alone.', next: 'Thursday at 16:30' };

/** The furnished room with comments on bars 9 and 3, written in that order. */
async function roomWithComments(): Promise<TestRoom> {
  const room = await openFurnishedRoom();
  const comment = { recordingId: 1, pass: null, attempt: null };
  room.store.addComment({ ...comment, key: '00000000-0000-4000-8000-000000000001', bars: ['9', '10'], barIndexes: [8, 9], text: 'Listen to the bass here.' });
  room.store.addComment({ ...comment, key: '00000000-0000-4000-8000-000000000002', bars: ['3', '3'], barIndexes: [2, 2], text: 'Finger 4 on the F.' });
  return room;
}

describe('a lesson sheet', () => {
  it('begins with the open comments, in the order of the piece', async () => {
    const room = await roomWithComments();
    const { status, body } = await room.call(SHEET);
    expect(status).toBe(200);
    expect(body.indexOf('Finger 4 on the F.')).toBeGreaterThan(0);
    expect(body.indexOf('Finger 4 on the F.')).toBeLessThan(body.indexOf('Listen to the bass here.'));
    expect(body).toContain('see a doctor');
  });

  it('begins with what is worth saying where nothing was written', async () => {
    const room = await openFurnishedRoom();
    // planned: she goes back in bars 7 and 15
    expect((await room.call(SHEET)).body).toMatch(/<textarea id="words0"[^>]*>[^<]+</);
  });

  it('keeps what was written over it, and shows it from then on', async () => {
    const room = await roomWithComments();
    expect((await room.post(SHEET, filled, { accept: 'application/json' })).body).toBe('{"saved":true}');
    const { body } = await room.call(SHEET);
    expect(body).toContain('Change the pedal on the bass only.');
    expect(body).toContain('Thursday at 16:30');
    expect(body).not.toContain('Listen to the bass here.');
  });

  it('comes back to its page without script', async () => {
    const room = await roomWithComments();
    const { status, headers } = await room.post(SHEET, filled, { accept: 'text/html' });
    expect([status, headers.location]).toEqual([303, SHEET]);
  });

  it('keeps every version', async () => {
    const { store } = await roomWithComments();
    store.saveLessonSheet(1, '{"a":1}');
    expect(store.saveLessonSheet(1, '{"a":2}').body).toBe('{"a":2}');
    expect(store.lessonSheetsOf(1)).toHaveLength(1);
  });

  it.each([
    [{ ...filled, from0: '99' }, 'The score has no bar 99.'],
    [{ ...filled, words0: 'w'.repeat(281) }, 'Shorten it'],
  ])('says what cannot be kept', async (fields, sentence) => {
    const room = await roomWithComments();
    const { status, body } = await room.post(SHEET, fields, { accept: 'application/json' });
    expect(status).toBeGreaterThanOrEqual(400);
    expect(body).toContain(sentence);
    expect(room.store.lessonSheet(1)).toBeNull();
  });

  it('is inert whatever is written on it', async () => {
    const room = await roomWithComments();
    await room.post(SHEET, { ...filled, words0: '</textarea><script>alert(1)</script>' }, { accept: 'application/json' });
    expect((await room.call(SHEET)).body).not.toContain('<script>alert');
  });
});
