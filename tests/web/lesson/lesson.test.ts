import { describe, expect, it } from 'vitest';
import { openFurnishedRoom, openTestRoom, REVIEW } from '../room.js';

const LESSON = '/pupils/mei-castellow/lesson';

describe('the next lesson', () => {
  it('says what came in, what is open, and nothing of a sheet before there is one', async () => {
    const room = await openFurnishedRoom({ line: 'once through, slowly' });
    room.store.addComment({ recordingId: 1, key: '00000000-0000-4000-8000-000000000001', bars: ['7', '7'], barIndexes: [6, 6], pass: null, attempt: null, text: 'Try 7 by itself.' });
    const { status, body } = await room.call(LESSON);
    expect(status).toBe(200);
    expect(body).toContain('once through, slowly');
    expect(body).toContain('Try 7 by itself.');
    expect(body).not.toContain('What was set');
  });

  it('shows what was set, and only what came in since', async () => {
    const room = await openFurnishedRoom({ line: 'once through, slowly' });
    await room.post(`${REVIEW}/sheet`, { well: '', from0: '7', to0: '8', words0: 'Change the pedal on the bass.', practise0: '', next: '' }, { accept: 'application/json' });
    const { body } = await room.call(LESSON);
    expect(body).toContain('Bars 7–8: Change the pedal on the bass.');
    // the one recording is of the evening before; the sheet was made after it
    expect(body).not.toContain('once through, slowly');
    expect(body).toContain('Nothing has come in since');
  });

  it('is not there for nobody', async () => {
    expect((await (await openTestRoom()).call('/pupils/nobody/lesson')).status).toBe(404);
  });
});
