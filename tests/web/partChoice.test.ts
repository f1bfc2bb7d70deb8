import { describe, expect, it } from 'vitest';
import { bars, note, partwise, rest, utf8, type BuiltPart } from '../score/build.js';
import { multipart, openFurnishedRoom, openTestRoom, REVIEW, type TestRoom } from './room.js';

/** A part of two bars, invented: one pitch struck eight times. */
function part(id: string, name: string, pitch: string): BuiltPart {
  return { id, name, measures: bars([1, 2].map(() => [1, 2, 3, 4].map(() => note(pitch, 2)).join(''))) };
}

/** A song: a voice, two pianos of the same name, and a silent part. */
const SONG = utf8(partwise([part('P1', 'Voice', 'C5'), part('P2', 'Piano', 'C4'), part('P3', 'Piano', 'C3'), { id: 'P4', name: 'Bells', measures: bars([rest(8), rest(8)]) }]));

/** A room with the song. */
async function songRoom(): Promise<TestRoom> {
  const room = await openTestRoom();
  room.store.addPiece({ title: 'Song', score: { name: 'song.musicxml', bytes: SONG } });
  return room;
}

describe('a score of several parts', () => {
  it('says which part is read, and what else could be', async () => {
    const { body } = await (await songRoom()).call('/pieces/song');
    // of two parts named like a keyboard, equally long, the first in the file is taken; the silent one is not offered
    expect(body).toContain('Read from “Piano” (second part), one of three parts');
    expect(body).toContain('<option value="P1">“Voice”: 8 notes</option>');
    expect(body).toContain('<option value="" selected>the piano, found by itself</option>');
    expect(body).not.toContain('Bells');
  });

  it('is read from the part that the teacher chooses, from then on and everywhere', async () => {
    const room = await songRoom();
    const { status, headers } = await room.post('/pieces/song/part', { part: 'P3' });
    expect([status, headers.location]).toEqual([303, '/pieces/song']);
    expect(room.store.scoreOfPiece(1).part).toBe('P3');
    const { body } = await room.call('/pieces/song');
    expect(body).toContain('Read from “Piano” (third part), one of three parts, as you chose');
    expect(body).toContain('<option value="P3" selected>');
    await room.post('/pieces/song/part', { part: '' });
    expect(room.store.scoreOfPiece(1).part).toBeNull();
  });

  it.each([['P9', 'There is no part of that id or name'], ['P4', 'This part holds rests alone']])('keeps its part where %s is asked for', async (asked, sentence) => {
    const room = await songRoom();
    const { status, body } = await room.post('/pieces/song/part', { part: asked });
    expect(status).toBe(422);
    expect(body).toContain(sentence);
    expect(room.store.scoreOfPiece(1).part).toBeNull();
  });

  it('tells it where it is filed', async () => {
    const room = await openTestRoom();
    const form = multipart([{ name: 'score', file: { name: 'song.musicxml', bytes: SONG } }, { name: 'recordings', file: { name: 'photo.mid', bytes: new Uint8Array([1]) } }, { name: 'newPupil', value: 'Mei' }]);
    expect((await room.call('/files', { method: 'POST', ...form })).body).toContain('Read from “Piano” (second part), one of three parts; its page lets you choose another.');
  });

  it('says nothing where two parts are the two hands', async () => {
    const room = await openTestRoom();
    room.store.addPiece({ title: 'Hands', score: { name: 'hands.musicxml', bytes: utf8(partwise([part('P1', 'Right Hand', 'C5'), part('P2', 'Left Hand', 'C3')])) } });
    expect((await room.call('/pieces/hands')).body).not.toContain('name="part"');
  });
});

describe('a recording of a part that is no longer read', () => {
  it('says where the part was chosen', async () => {
    const room = await openFurnishedRoom();
    const { id } = room.store.scoreOfPiece(1);
    room.store.choosePart(id, 'gone');
    const { status, body } = await room.call(REVIEW);
    expect(status).toBe(422);
    expect(body).toContain('There is no part of that id or name');
    expect(body).toContain('the piece’s page lets you choose another');
  });
});
