import { describe, expect, it } from 'vitest';
import { readRecording } from '../../src/recording/index.js';
import { isScale, readScore } from '../../src/score/index.js';
import { openFurnishedRoom, openTestRoom, REVIEW } from './room.js';

interface SoundAnswer {
  readonly as: string;
  readonly playback: { readonly keys: readonly { readonly onsetS: number; readonly pitch: number }[] };
  readonly clock: readonly unknown[];
  readonly gainDb: number;
  readonly changes: readonly { readonly text: string }[];
  readonly moments?: readonly { readonly timeS: number; readonly notes: readonly string[] }[];
  readonly bars?: readonly { readonly startS: number; readonly beatS: number; readonly beats: number }[];
  readonly versions?: readonly { readonly name: string }[];
}

describe('what can be heard of a recording', () => {
  it('is every key at its moment, and where each moment stands', async () => {
    const room = await openFurnishedRoom();
    const answer = JSON.parse((await room.call(`${REVIEW}/sound`)).body) as SoundAnswer;
    expect(answer.as).toBe('played');
    expect(answer.playback.keys.length).toBeGreaterThan(50);
    expect(answer.moments!.every(({ notes }) => notes.length > 0)).toBe(true);
    for (const list of [answer.moments!.map(({ timeS }) => timeS), answer.bars!.map(({ startS }) => startS)]) expect(list).toEqual([...list].sort((a, b) => a - b));
    expect(answer.versions!.map(({ name }) => name)).toContain('printed');
  });

  it('is each version, in sound, in words and as a file', async () => {
    const room = await openFurnishedRoom();
    const { versions } = JSON.parse((await room.call(`${REVIEW}/sound`)).body) as SoundAnswer;
    const page = (await room.call(`${REVIEW}/as-it-could-be`)).body;
    for (const { name } of versions!) {
      const answer = JSON.parse((await room.call(`${REVIEW}/sound?as=${name}`)).body) as SoundAnswer;
      expect(answer.as).toBe(name);
      if (answer.changes.length > 0) expect(page).toContain(`/as-it-could-be/${name}.mid`);
    }
    const { status, headers } = await room.call(`${REVIEW}/as-it-could-be/printed.mid`);
    expect([status, headers['content-type']]).toEqual([200, 'audio/midi']);
    expect((await room.call(`${REVIEW}/as-it-could-be/louder.mid`)).status).toBe(404);
  });

  it('credits the piano, and keeps its tones for good', async () => {
    const room = await openFurnishedRoom();
    expect((await room.call(`${REVIEW}/as-it-could-be`)).body).toContain('Alexander Holm, under the licence CC BY 3.0');
    const { status, headers } = await room.call('/piano/C4v10.mp3');
    expect([status, headers['content-type']]).toEqual([200, 'audio/mpeg']);
    expect(headers['cache-control']).toContain('immutable');
    expect((await room.call('/piano/..%2fpackage.json')).status).toBeGreaterThanOrEqual(400);
  });
});

describe('scales without a file', () => {
  it('become a piece, once however often they are asked for', async () => {
    const room = await openTestRoom();
    const fields = { tonic: 'Eb', kind: 'major', octaves: '2', hands: 'together', notes: '4', tempo: '72', touch: 'legato' };
    const first = await room.post('/scales', fields);
    const again = await room.post('/scales', fields);
    expect([first.status, first.headers.location]).toEqual([303, again.headers.location]);
    expect((await room.call(first.headers.location!)).body).toContain('E flat major, two octaves, hands together, legato');
    const [piece] = room.store.pieces();
    const score = readScore(room.store.bytesOf(room.store.scoreOfPiece(piece!.id)), { fileName: 'scale.musicxml' });
    expect(isScale(score)).toBe(true);
  });

  it('says what cannot be printed, and keeps what was chosen', async () => {
    const room = await openTestRoom();
    const { status, body } = await room.post('/scales', { tonic: 'G#', kind: 'major', octaves: '1', hands: 'right', notes: '2', tempo: '72', touch: 'plain' });
    expect(status).toBe(422);
    expect(body).toContain('Choose the same key under its other name.');
    expect(body).toContain('<option value="G#" selected>');
    expect((await room.post('/scales', { tempo: 'quick' })).status).toBe(422);
  });
});

it('reads a downloaded version like any recording', async () => {
  const room = await openFurnishedRoom();
  const answer = await fetch(`${room.address}${REVIEW}/as-it-could-be/printed.mid`);
  expect(readRecording(new Uint8Array(await answer.arrayBuffer()), { fileName: 'printed.mid' }).notes.length).toBeGreaterThan(50);
});
