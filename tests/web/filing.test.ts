import { describe, expect, it } from 'vitest';
import type { Pupil } from '../../src/store/index.js';
import { namedIn } from '../../src/web/findPupil.js';
import { multipart, openTestRoom, sample, type TestRoom } from './room.js';

/** A pupil by name alone, invented. */
function pupil(name: string, id: number): Pupil {
  return { id, slug: `pupil-${id}`, name, pronoun: null, invented: false, born: null, lesson: null, createdAt: '', removedAt: null };
}

const PUPILS = ['Mei Castellow', 'Nilo Tarrand', 'Asha Vellory', 'Mei Lindqvist', 'Jo'].map(pupil);

/** A room with two pupils and two pieces, nothing sent yet. */
async function openRoomOfTwo(): Promise<TestRoom> {
  const room = await openTestRoom();
  for (const name of ['Mei Castellow', 'Asha Vellory']) room.store.addPupil(name);
  for (const [title, file] of [['Rowing Home', 'rowing-home'], ['Quayside March', 'quayside-march']] as const) room.store.addPiece({ title, score: sample(`${file}/score.musicxml`) });
  return room;
}

describe('whose name stands in a file’s name', () => {
  it.each([
    ['mei-castellow-2025-10-21.mid', ['Mei Castellow']],
    ['MeiCastellow_3.MID', ['Mei Castellow']],
    ['Vellory, Asha.mid', ['Asha Vellory']],
    ['nilo2 gull chase.mid', ['Nilo Tarrand']],
    // two have this first name: not decided by the name
    ['mei.mid', ['Mei Castellow', 'Mei Lindqvist']],
    ['USER001.MID', []],
    // a name of two letters stands in a file's name only as a word of its own
    ['journey.mid', []],
    ['jo 4.mid', ['Jo']],
    ['Ashanti.mid', []],
    ['', []],
  ])('%s', (file, names) => {
    expect(namedIn(file, PUPILS).map(({ name }) => name)).toEqual(names);
  });

  it('does not mind accents', () => {
    expect(namedIn('zoe-lukasz.mid', [pupil('Zoë Łukasz', 1), pupil('Zoë', 2)]).map(({ id }) => id)).toEqual([2]);
  });
});

describe('ten files at once', () => {
  it('find their pupils by name and their pieces by notes, and each says so', async () => {
    const room = await openRoomOfTwo();
    const takes = ['rowing-home/mei-castellow-2025-10-07.mid', 'rowing-home/mei-castellow-2025-10-21.mid', 'quayside-march/asha-vellory-2025-10-16.mid'];
    const nameless = [{ ...sample('rowing-home/jonas-brekkewood-2025-10-14.mid'), name: 'USER001.MID' }];
    const form = multipart([...takes.map(sample), ...nameless, { name: 'photo.mid', bytes: new Uint8Array([0xff, 0xd8]) }].map((file) => ({ name: 'recordings', file })));
    const { status, body } = await room.call('/files', { method: 'POST', ...form });
    expect(status).toBe(422);
    expect(room.store.recordings().map(({ pupil: { name }, piece }) => [name, piece.title]).sort()).toEqual([
      ['Asha Vellory', 'Quayside March'], ['Mei Castellow', 'Rowing Home'], ['Mei Castellow', 'Rowing Home'],
    ]);
    expect(body).toContain('Filed: Asha Vellory, Quayside March (by the file’s name; the piece by its notes).');
    expect(body).toContain('<strong>USER001.MID</strong>: It is of Rowing Home. Whose is it?');
    expect(body).toContain('This is not a MIDI file');
  });

  it('without a name goes to the only pupil who has the piece in hand, and one tap gives it to another', async () => {
    const room = await openRoomOfTwo();
    const send = (path: string, name: string) => room.call('/files', { method: 'POST', ...multipart([{ name: 'recordings', file: { ...sample(path), name } }]) });
    room.store.addRecording({ pupilId: 1, scoreId: 1, file: { ...sample('rowing-home/mei-castellow-2025-10-07.mid'), name: 'mei.mid' }, line: '', receivedAt: '2025-10-07T20:15:00.000Z' });
    const { body } = await send('rowing-home/mei-castellow-2025-10-21.mid', 'USER001.MID');
    expect(body).toContain('Filed: Mei Castellow, Rowing Home (the only one with this piece in hand; the piece by its notes).');
    const [, action = ''] = /action="([^"]+\/move)"/.exec(body) ?? [];
    const moved = await room.post(action, { pupil: 'asha-vellory' });
    expect(room.store.recordings().map(({ fileName, pupil: { name } }) => [fileName, name])).toEqual([['USER001.MID', 'Asha Vellory'], ['mei.mid', 'Mei Castellow']]);
    const desk = await room.call(moved.headers.location ?? '');
    expect(desk.body).toContain('Now filed: Asha Vellory, Rowing Home.');
    // undo gives it back
    const [, back = ''] = /action="([^"]+\/move)" method="post"><input type="hidden" name="pupil" value="mei-castellow">/.exec(desk.body) ?? [];
    await room.post(back, { pupil: 'mei-castellow', piece: 'rowing-home' });
    expect(room.store.recordings().every(({ pupil: { name } }) => name === 'Mei Castellow')).toBe(true);
  });

  it('is not moved to a piece that it is not of', async () => {
    const room = await openRoomOfTwo();
    await room.call('/files', { method: 'POST', ...multipart([{ name: 'recordings', file: sample('rowing-home/mei-castellow-2025-10-07.mid') }]) });
    const { status } = await room.post('/pupils/mei-castellow/recordings/1/move', { piece: 'quayside-march' });
    expect(status).toBe(422);
    expect(room.store.recording(1)?.piece.title).toBe('Rowing Home');
  });
});
