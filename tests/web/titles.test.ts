import { describe, expect, it } from 'vitest';
import { bars, note, partwise, utf8 } from '../score/build.js';
import { multipart, openTestRoom, type TestRoom } from './room.js';

/** A score without a title, invented, whose first note makes it another file. */
function untitled(pitch: string): { name: string; bytes: Uint8Array } {
  return { name: 'score.musicxml', bytes: utf8(partwise(bars([note(pitch, 8)]))) };
}

/** Puts a score in as the desk's form does. */
async function putIn(room: TestRoom, file: { name: string; bytes: Uint8Array }): Promise<void> {
  await room.call('/files', { method: 'POST', ...multipart([{ name: 'score', file }]) });
}

describe('two pieces of one name', () => {
  it('are told apart on the desk, in its list to choose from, and on their pages', async () => {
    const room = await openTestRoom();
    for (const pitch of ['C4', 'D4']) await putIn(room, untitled(pitch));
    const desk = (await room.call('/')).body;
    for (const place of ['first', 'second']) {
      expect(desk).toContain(`<em>score</em> <span class="small">(${place} of this name, from score.musicxml)</span>`);
      expect(desk).toContain(`>score (${place} of this name, from score.musicxml)</option>`);
    }
    expect((await room.call('/pieces/score-2')).body).toContain('second of this name, from score.musicxml');
  });

  it('are told apart by their composers where those differ', async () => {
    const room = await openTestRoom();
    room.store.addPiece({ title: 'Evening', composer: 'A. Quill', score: untitled('C4') });
    room.store.addPiece({ title: 'evening', composer: 'B. Reed', score: untitled('D4') });
    expect((await room.call('/')).body).toContain('<em>Evening</em> <span class="small">(A. Quill)</span>');
  });

  it('say nothing of it where there is only one', async () => {
    const room = await openTestRoom();
    await putIn(room, untitled('C4'));
    expect((await room.call('/')).body).not.toContain('of this name');
  });
});
