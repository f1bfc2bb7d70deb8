import { describe, expect, it } from 'vitest';
import { openFurnishedRoom, openTestRoom, sample } from '../room.js';

const REPORT = '/pupils/mei-castellow/report';

describe('a term report', () => {
  it('counts the recordings of the term, by piece', async () => {
    const room = await openFurnishedRoom();
    room.store.addRecording({ pupilId: 1, scoreId: 1, line: '', file: sample('rowing-home/mei-castellow-2025-10-21.mid'), receivedAt: '2025-10-21T20:00:00' });
    const { status, body } = await room.call(REPORT);
    expect(status).toBe(200);
    expect(body).toContain('Two recordings were sent.');
    await room.post(REPORT, { from: '2025-10-15', text: '' }, { accept: 'application/json' });
    expect((await room.call(REPORT)).body).toContain('One recording was sent.');
  });

  it('keeps what the teacher writes, inert', async () => {
    const room = await openFurnishedRoom();
    await room.post(REPORT, { from: '2025-09-01', text: 'A good term. </textarea><script>alert(1)</script>' }, { accept: 'application/json' });
    const { body } = await room.call(REPORT);
    expect(body).toContain('A good term.');
    expect(body).not.toContain('<script>alert');
  });

  it.each([
    [{ from: 'soon', text: '' }, 422],
    [{ from: '2025-09-01', text: 'x'.repeat(1501) }, 413],
  ])('refuses what it cannot keep, in words', async (fields, expected) => {
    const room = await openFurnishedRoom();
    const { status, body } = await room.post(REPORT, fields, { accept: 'application/json' });
    expect(status).toBe(expected);
    expect(body).toContain('"error"');
    expect(room.store.termReport(1)).toBeNull();
  });

  it('is not there for nobody', async () => {
    expect((await (await openTestRoom()).call('/pupils/nobody/report')).status).toBe(404);
  });
});
