import { describe, expect, it } from 'vitest';
import { MEI_OCTOBER, multipart, openTestRoom, plainPipeline, ROWING_HOME, sample, type TestRoom } from './room.js';

const LINES = 'application/x-ndjson';
const MEI = sample(MEI_OCTOBER).name;

/** Sends a form as the page's script does, and gives every line of the answer. */
async function linesOf(room: TestRoom, parts: Parameters<typeof multipart>[0]): Promise<Record<string, unknown>[]> {
  const { body, headers } = multipart(parts);
  const answer = await room.call('/files', { method: 'POST', body, headers: { ...headers, accept: LINES } });
  expect([answer.status, answer.headers['content-type']]).toEqual([200, expect.stringContaining(LINES)]);
  return answer.body.trim().split('\n').map((line) => JSON.parse(line) as Record<string, unknown>);
}

describe('news of files that were sent', () => {
  it('name every step with every file, and end with where to go', async () => {
    const room = await openTestRoom();
    room.store.addPiece({ title: 'Quayside March', score: sample('quayside-march/score.musicxml') });
    room.store.addPiece({ title: 'Rowing Home', score: sample(ROWING_HOME) });
    expect(await linesOf(room, [{ name: 'recordings', file: sample(MEI_OCTOBER) }, { name: 'newPupil', value: 'Mei' }])).toEqual([
      { at: 0, file: MEI, text: 'received' },
      { at: 0, file: MEI, text: 'finding its piece: “Quayside March”, 1 of 2' },
      { at: 0, file: MEI, text: 'finding its piece: “Rowing Home”, 2 of 2' },
      { at: 0, file: MEI, text: 'Filed: Mei, Rowing Home.' },
      { href: '/pupils/mei/recordings/1' },
    ]);
  });

  it('tell a score and its recording apart, and files of one name', async () => {
    const room = await openTestRoom();
    const lines = await linesOf(room, [
      { name: 'recordings', file: { name: '', bytes: new Uint8Array() } },
      { name: 'recordings', file: sample(MEI_OCTOBER) },
      { name: 'recordings', file: { name: MEI, bytes: new Uint8Array([1, 2, 3, 4]) } },
      { name: 'score', file: sample(ROWING_HOME) },
      { name: 'newPupil', value: 'Mei' },
    ]);
    const told = (at: number): unknown[] => lines.filter((line) => line['at'] === at).map((line) => line['text']);
    expect(told(0)).toEqual(['received', 'reading the score of “Rowing Home”', 'matching its notes with “Rowing Home”', 'Filed: Mei, Rowing Home.']);
    expect(told(1).slice(0, 3)).toEqual(told(0).slice(0, 3));
    expect(told(1)[3]).toContain('This is not a MIDI file');
    expect(told(2)).toEqual(['received', 'reading the score', 'Filed as the score of Rowing Home.']);
    // one of them failed, so the desk tells what became of all
    expect(lines.at(-1)?.['page']).toContain('<h1>Desk</h1>');
  });

  it('end with the desk where nothing could be done, whatever the reason', async () => {
    const noPiece = await linesOf(await openTestRoom(), [{ name: 'recordings', file: sample(MEI_OCTOBER) }]);
    expect(noPiece.at(-1)?.['page']).toContain('None of the pieces here fits this recording. It waits on the desk until its score is put in.');
    const room = await openTestRoom({ ...plainPipeline(), score: () => Promise.reject(new RangeError('secret')) });
    const fault = await linesOf(room, [{ name: 'score', file: sample(ROWING_HOME) }]);
    expect(fault.at(-1)?.['page']).toContain('Something went wrong inside Barwise.');
    expect(JSON.stringify([fault, room.log])).not.toContain('secret');
  });

  it('go out when the step begins: the room goes on only after they were heard', async () => {
    let heard = (): void => undefined;
    const gate = new Promise<void>((resolve) => (heard = resolve));
    const pipeline = plainPipeline();
    const room = await openTestRoom({ ...pipeline, score: (file) => gate.then(() => pipeline.score(file)) });
    const { body, headers } = multipart([{ name: 'score', file: sample(ROWING_HOME) }]);
    const answer = await fetch(`${room.address}/files`, { method: 'POST', body: Buffer.from(body), headers: { ...headers, accept: LINES, 'accept-encoding': 'gzip' } });
    let text = '';
    for await (const chunk of answer.body ?? []) {
      text += Buffer.from(chunk as Uint8Array).toString('utf8');
      if (text.includes('reading the score')) heard();
    }
    expect(text).toContain('Filed as the score of Rowing Home.');
  });
});
