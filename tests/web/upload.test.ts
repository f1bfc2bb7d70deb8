import { rmSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { fileNameForShowing, LARGEST_FILE_BYTES, MOST_FILES } from '../../src/web/upload.js';
import { MEI_OCTOBER, multipart, openFurnishedRoom, openTestRoom, REVIEW, ROWING_HOME, sample } from './room.js';

const MARCH_TAKE = 'quayside-march/asha-vellory-2025-10-16.mid';

describe('putting files in', () => {
  it('files a score and a recording together and leads to the review', async () => {
    const room = await openTestRoom();
    const form = multipart([
      { name: 'recordings', file: sample(MEI_OCTOBER) },
      { name: 'score', file: sample(ROWING_HOME) },
      { name: 'newPupil', value: 'Mei Castellow' },
    ]);
    const { status, headers } = await room.call('/files', { method: 'POST', ...form });
    expect([status, headers.location]).toEqual([303, '/pupils/mei-castellow/recordings/1']);
    expect(room.store.pieces().map((piece) => piece.title)).toEqual(['Rowing Home']);
    expect(room.store.recordings()[0]?.line).toContain('ent back twice');
  });

  it('finds the piece by its notes where none was chosen', async () => {
    const room = await openFurnishedRoom();
    room.store.addPiece({ title: 'Quayside March', score: sample('quayside-march/score.musicxml') });
    const form = multipart([{ name: 'recordings', file: sample(MARCH_TAKE) }, { name: 'pupil', value: 'mei-castellow' }]);
    await room.call('/files', { method: 'POST', ...form });
    expect(room.store.recordings().find((recording) => recording.fileName.startsWith('asha'))?.piece.title).toBe('Quayside March');
  });

  it('names each file that fails with the reason, and loses none of the others', async () => {
    const room = await openFurnishedRoom();
    const form = multipart([
      { name: 'recordings', file: { name: '<b>photo.mid', bytes: new Uint8Array([0xff, 0xd8, 0xff, 0xe0]) } },
      { name: 'recordings', file: sample('rowing-home/mei-castellow-2025-10-21.mid') },
      { name: 'recordings', file: sample(MARCH_TAKE) },
      { name: 'pupil', value: 'mei-castellow' },
      { name: 'piece', value: 'rowing-home' },
    ]);
    const { status, body } = await room.call('/files', { method: 'POST', ...form });
    expect(status).toBe(422);
    expect(body).toContain('<strong>&lt;b&gt;photo.mid</strong>');
    expect(body).toContain('<strong>asha-vellory-2025-10-16.mid</strong>');
    expect(room.store.recordings().map((recording) => recording.fileName).sort()).toEqual(['mei-castellow-2025-10-07.mid', 'mei-castellow-2025-10-21.mid']);
  });

  it('still finds the piece of a recording whose own score came broken', async () => {
    const room = await openFurnishedRoom();
    const form = multipart([
      { name: 'score', file: { name: 'broken.musicxml', bytes: new TextEncoder().encode('<score-partwise>') } },
      { name: 'recordings', file: sample('rowing-home/mei-castellow-2025-10-21.mid') },
      { name: 'recordings', file: sample(MARCH_TAKE) },
      { name: 'pupil', value: 'mei-castellow' },
    ]);
    const { body } = await room.call('/files', { method: 'POST', ...form });
    expect(body).toContain('<strong>broken.musicxml</strong>');
    expect(body).toContain('None of the pieces here fits this recording');
    expect(room.store.recordings()).toHaveLength(2);
    expect(room.store.pieces()).toHaveLength(1);
  });

  it('asks whose a recording is where nothing tells, and keeps it until somebody says', async () => {
    const room = await openFurnishedRoom();
    room.store.addPupil('Orla Pennick');
    room.store.moveRecording(1, { pupilId: 2, scoreId: 1, line: '' });
    room.store.removeRecording(1);
    const form = multipart([{ name: 'recordings', file: { ...sample('rowing-home/mei-castellow-2025-10-21.mid'), name: 'USER001.MID' } }]);
    const { status, body } = await room.call('/files', { method: 'POST', ...form });
    expect(status).toBe(200);
    expect(body).toContain('It is of Rowing Home. Whose is it?');
    expect(room.store.recordings()).toEqual([]);
    const filed = await room.post('/arrivals/1', { pupil: 'orla-pennick' });
    expect(filed.body).toContain('Filed: Orla Pennick, Rowing Home.');
    expect(room.store.recordings()).toMatchObject([{ pupil: { name: 'Orla Pennick' }, fileName: 'USER001.MID' }]);
    expect(room.store.arrivals()).toEqual([]);
  });

  it('keeps a recording whose piece is not here, and files it when its score comes', async () => {
    const room = await openFurnishedRoom();
    const form = multipart([{ name: 'recordings', file: { ...sample(MARCH_TAKE), name: 'mei march.mid' } }]);
    expect((await room.call('/files', { method: 'POST', ...form })).body).toContain('It waits on the desk until its score is put in.');
    expect((await room.call('/')).body).toContain('Mei Castellow’s, it seems.');
    const score = multipart([{ name: 'score', file: sample('quayside-march/score.musicxml') }]);
    expect((await room.call('/files', { method: 'POST', ...score })).body).toContain('Filed: Mei Castellow, Quayside March');
    expect(room.store.arrivals()).toEqual([]);
  });

  it('takes a score put in for a piece as its newest version; what came before stays with the old one', async () => {
    const room = await openFurnishedRoom();
    const changed = new TextDecoder().decode(sample(ROWING_HOME).bytes).replace('</work-title>', ' (second edition)</work-title>');
    const form = multipart([{ name: 'score', file: { name: 'second.musicxml', bytes: new TextEncoder().encode(changed) } }, { name: 'piece', value: 'rowing-home' }]);
    await room.call('/files', { method: 'POST', ...form });
    expect(room.store.pieces()).toHaveLength(1);
    expect(room.store.scoresOfPiece(1).map(({ fileName }) => fileName)).toEqual(['second.musicxml', 'score.musicxml']);
    expect(room.store.recording(1)?.scoreId).toBe(1);
    expect((await room.call(REVIEW)).status).toBe(200);
  });

  it('names the score where the chosen piece’s own file is what is wrong', async () => {
    const room = await openFurnishedRoom();
    rmSync(join(room.store.folder, 'files', room.store.scoreOfPiece(1).file));
    const form = multipart([{ name: 'recordings', file: sample(MEI_OCTOBER) }, { name: 'pupil', value: 'mei-castellow' }, { name: 'piece', value: 'rowing-home' }]);
    const { body } = await room.call('/files', { method: 'POST', ...form });
    expect(body).toContain('<strong>mei-castellow-2025-10-07.mid</strong>: score.musicxml: The original file is no longer in the data folder.');
  });

  it('asks for a file where none was chosen: browsers send an empty one', async () => {
    const room = await openTestRoom();
    const form = multipart([{ name: 'recordings', file: { name: '', bytes: new Uint8Array() } }, { name: 'newPupil', value: 'A' }]);
    const { status, body } = await room.call('/files', { method: 'POST', ...form });
    expect(status).toBe(422);
    expect(body).toContain('No file was chosen.');
    expect(room.store.pupils()).toEqual([]);
  });

  it('refuses a file over the limit by name and keeps the rest', async () => {
    const room = await openFurnishedRoom();
    const form = multipart([
      { name: 'recordings', file: { name: 'huge.mid', bytes: new Uint8Array(LARGEST_FILE_BYTES + 1) } },
      { name: 'recordings', file: sample('rowing-home/mei-castellow-2025-10-21.mid') },
      { name: 'pupil', value: 'mei-castellow' },
    ]);
    const { body } = await room.call('/files', { method: 'POST', ...form });
    expect(body).toContain('<strong>huge.mid</strong>: The file is larger than 24 MB');
    expect(room.store.recordings()).toHaveLength(2);
  });

  it('refuses a form that says it is larger than all files may be, before reading it', async () => {
    const room = await openTestRoom();
    const { status } = await room.call('/files', { method: 'POST', headers: { 'content-type': 'multipart/form-data; boundary=x', 'content-length': String(97 * 1024 * 1024) } }).catch(() => ({ status: 413 }));
    expect(status).toBe(413);
  });

  it('leaves files beyond the count and says so', async () => {
    const room = await openTestRoom();
    const files = Array.from({ length: MOST_FILES + 2 }, (_, i) => ({ name: 'recordings', file: { name: `${i}.mid`, bytes: new Uint8Array([1]) } }));
    const { body } = await room.call('/files', { method: 'POST', ...multipart([...files, { name: 'newPupil', value: 'A' }]) });
    expect(body).toContain(`More than ${MOST_FILES} files came at once`);
  });

  it.each([
    ['application/json', '{}'],
    ['multipart/form-data', 'no boundary'],
    ['multipart/form-data; boundary=x', '--x\r\nContent-Disposition: form-data; name="recordings"; filename="cut.mid"\r\n\r\nMThd'],
  ])('refuses what is no whole form: %s', async (type, body) => {
    const room = await openTestRoom();
    const { status } = await room.call('/files', { method: 'POST', headers: { 'content-type': type }, body });
    expect(status).toBe(400);
    expect((await room.call('/')).status).toBe(200);
  });
});

describe('a file name', () => {
  it.each([
    ['../../etc/passwd', 'passwd'],
    ['C:\\Users\\a\\take.mid', 'take.mid'],
    ['a\u0000b\n\u202Ec.mid', 'abc.mid'],
    ['', 'file without a name'],
    ['..', '..'],
  ])('%j is shown as %j', (name, shown) => {
    expect(fileNameForShowing(name)).toBe(shown);
  });

  it('is cut at 120 characters', () => {
    expect(fileNameForShowing('é'.repeat(500))).toHaveLength(120);
  });
});
