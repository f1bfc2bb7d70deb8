import { strFromU8, unzipSync } from 'fflate';
import { readdirSync, readFileSync } from 'node:fs';
import { request as send } from 'node:http';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { csvOf } from '../../src/web/csv.js';
import { MEI_OCTOBER, multipart, openFurnishedRoom, openTestRoom, ROWING_HOME, sample, type TestRoom } from './room.js';

/** A file that the room sends, byte for byte. */
function download(room: TestRoom, path: string): Promise<Uint8Array> {
  return new Promise((resolve, reject) => {
    send(`${room.address}${path}`, (incoming) => {
      const chunks: Buffer[] = [];
      incoming.on('data', (chunk: Buffer) => chunks.push(chunk));
      incoming.on('end', () => resolve(Buffer.concat(chunks)));
    }).on('error', reject).end();
  });
}

/** A furnished room with a comment that was changed. */
async function openWrittenRoom(): Promise<TestRoom> {
  const room = await openFurnishedRoom();
  const { id } = room.store.addComment({ recordingId: 1, key: 'k', bars: ['5', '8'], barIndexes: [5, 8], text: 'Count.' });
  room.store.editComment(id, '=1+1, "four"\nslowly');
  room.store.setLesson(1, { day: 2, time: '16:30' });
  room.store.setSetting('passphrase', 'secret');
  return room;
}

describe('a copy of everything', () => {
  it('gives the same room back where nothing of one’s own is', async () => {
    const room = await openWrittenRoom();
    const copy = await download(room, '/copies/room.zip');
    const other = await openTestRoom();
    other.store.addPupil('Demo Pupil', { invented: true });
    other.store.setSetting('passphrase', 'another');
    const { status } = await other.call('/copies/back', { method: 'POST', ...multipart([{ name: 'copy', file: { name: 'room.zip', bytes: copy } }]) });
    expect(status).toBe(303);
    expect(other.store.takeArchive()).toEqual(room.store.takeArchive());
    expect(other.store.setting('passphrase')).toBe('another');
    expect(Buffer.from(other.store.bytesOf(other.store.recording(1)!))).toEqual(Buffer.from(sample(MEI_OCTOBER).bytes));
    expect((await other.call('/pupils/mei-castellow')).body).toContain('Rowing Home');
  });

  it('holds originals under readable names, and tables in which no cell is a formula', async () => {
    const files = unzipSync(await download(await openWrittenRoom(), '/copies/room.zip'));
    expect(Object.keys(files).sort()).toEqual(['comments.csv', 'recordings.csv', 'recordings/mei-castellow/rowing-home/2025-10-07 1 mei-castellow-2025-10-07.mid', 'room.json', 'scores/rowing-home/1 score.musicxml']);
    expect(Buffer.from(files['scores/rowing-home/1 score.musicxml']!)).toEqual(Buffer.from(sample(ROWING_HOME).bytes));
    // RFC 4180: quotes doubled; the formula is a text for a spreadsheet
    expect(strFromU8(files['comments.csv']!)).toContain(`"bars 5–8","'=1+1, ""four""\nslowly"`);
    expect(strFromU8(files['room.json']!)).not.toContain('secret');
  });

  it('is refused where the room holds something of its own', async () => {
    const room = await openWrittenRoom();
    const copy = await download(room, '/copies/room.zip');
    const before = room.store.takeArchive();
    const { status, body } = await room.call('/copies/back', { method: 'POST', ...multipart([{ name: 'copy', file: { name: 'room.zip', bytes: copy } }]) });
    expect(status).toBe(422);
    expect(body).toContain('This room holds pupils or pieces of its own');
    expect(room.store.takeArchive()).toEqual(before);
  });

  it.each([
    ['no zip', new Uint8Array([1, 2, 3])],
    ['a zip of something else', Buffer.from('504b0506000000000000000000000000000000000000', 'hex')],
  ])('is refused where it is %s', async (_, bytes) => {
    const room = await openTestRoom();
    const { status, body } = await room.call('/copies/back', { method: 'POST', ...multipart([{ name: 'copy', file: { name: 'x.zip', bytes } }]) });
    expect(status).toBe(422);
    expect(body).toContain('This is not a copy of a room');
  });
});

describe('a copy of one pupil', () => {
  it('holds what was sent and written, with every text a comment has had, and nobody else', async () => {
    const room = await openWrittenRoom();
    const orla = room.store.addPupil('Orla Pennick');
    room.store.addRecording({ pupilId: orla.id, scoreId: 1, file: sample('rowing-home/mei-castellow-2025-10-21.mid'), line: '' });
    const files = unzipSync(await download(room, '/pupils/mei-castellow/copy'));
    expect(JSON.parse(strFromU8(files['pupil.json']!))).toMatchObject({
      format: 'barwise-pupil/1', name: 'Mei Castellow', lesson: { day: 2, time: '16:30' },
      recordings: [{ piece: 'Rowing Home', comments: [{ about: 'bars 5–8', texts: [{ text: 'Count.' }, { text: '=1+1, "four"\nslowly' }] }] }],
    });
    expect(Object.keys(files).filter((path) => path.startsWith('recordings/'))).toHaveLength(1);
    expect(Object.values(files).some((bytes) => strFromU8(bytes, true).includes('Orla'))).toBe(false);
  });
});

describe('a pupil deleted for good', () => {
  it('is asked for by name, and leaves no trace in the folder or the log', async () => {
    const room = await openWrittenRoom();
    await room.call('/pupils/mei-castellow/recordings/1');
    expect((await room.call('/pupils/mei-castellow/erase')).body).toContain('one recording, one comment');
    expect((await room.post('/pupils/mei-castellow/erase', { name: 'Mei' })).status).toBe(422);
    expect(room.store.pupils()).toHaveLength(1);
    const { headers } = await room.post('/pupils/mei-castellow/erase', { name: 'Mei Castellow' });
    expect((await room.call(headers.location ?? '')).body).toContain('Deleted for good');
    const left = readdirSync(room.store.folder, { recursive: true, withFileTypes: true }).filter((entry) => entry.isFile()).map((entry) => readFileSync(join(entry.parentPath, entry.name), 'latin1'));
    for (const word of ['Castellow', 'castellow', 'Count.', 'slowly']) expect(left.some((text) => text.includes(word)), word).toBe(false);
    expect(room.log.join('\n')).not.toMatch(/castellow/i);
    expect(room.store.pieces()).toHaveLength(1);
  });
});

describe('a table for spreadsheets', () => {
  it('quotes every text and leaves no formula', () => {
    expect(csvOf(['a', 'b'], [['x,y', 2], ['-3', 0]])).toBe('"a","b"\r\n"x,y",2\r\n"\'-3",0\r\n');
  });
});
