import { rmSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { partwise, bars, rest, utf8 } from '../score/build.js';
import { MEI_OCTOBER, multipart, openTestRoom, ROWING_HOME, sample, type Answer, type TestRoom } from './room.js';

/** A bar that is silent throughout, invented. */
const SILENT_BAR = utf8(partwise(bars([rest(8)])));

/** Sends Mei's recording without saying which piece it is. */
async function sendMei(room: TestRoom): Promise<Answer> {
  room.store.addPupil('Mei Castellow');
  return room.call('/files', { method: 'POST', ...multipart([{ name: 'recordings', file: sample(MEI_OCTOBER) }, { name: 'pupil', value: 'mei-castellow' }]) });
}

describe('a recording whose piece nobody named', () => {
  it('is found where another score in the room holds rests alone', async () => {
    const room = await openTestRoom();
    room.store.addPiece({ title: 'A Silent Bar', score: { name: 'silent.musicxml', bytes: SILENT_BAR } });
    room.store.addPiece({ title: 'Rowing Home', score: sample(ROWING_HOME) });
    expect((await sendMei(room)).status).toBe(303);
    expect(room.store.recordings().map(({ piece }) => piece.title)).toEqual(['Rowing Home']);
  });

  it('is found where the file of another score has gone, or is damaged', async () => {
    const room = await openTestRoom();
    const gone = room.store.addPiece({ title: 'A Score That Went', score: { name: 'gone.musicxml', bytes: SILENT_BAR } });
    room.store.addPiece({ title: 'Broken', score: { name: 'broken.musicxml', bytes: new Uint8Array([0x3c]) } });
    room.store.addPiece({ title: 'Rowing Home', score: sample(ROWING_HOME) });
    rmSync(join(room.store.folder, 'files', room.store.scoreOfPiece(gone.id).file));
    expect((await sendMei(room)).status).toBe(303);
  });

  it('names what could not be tried where nothing fits, even a score of the recording’s own file name', async () => {
    const room = await openTestRoom();
    room.store.addPiece({ title: 'A Silent Bar', score: { name: sample(MEI_OCTOBER).name, bytes: SILENT_BAR } });
    const { status, body } = await sendMei(room);
    expect(status).toBe(422);
    expect(body).toContain('None of the pieces here fits this recording');
    expect(body).toContain('Not tried, because no notes could be read from the score: “A Silent Bar”.');
  });

  it('is itself refused where it cannot be read', async () => {
    const room = await openTestRoom();
    room.store.addPiece({ title: 'Rowing Home', score: sample(ROWING_HOME) });
    const form = multipart([{ name: 'recordings', file: { name: 'photo.mid', bytes: new Uint8Array([0xff, 0xd8]) } }, { name: 'newPupil', value: 'Mei' }]);
    const { body } = await room.call('/files', { method: 'POST', ...form });
    expect(body).toContain('<strong>photo.mid</strong>: This is not a MIDI file');
    expect(body).not.toContain('None of the pieces');
  });
});
