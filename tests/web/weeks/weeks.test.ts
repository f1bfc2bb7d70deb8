import { describe, expect, it } from 'vitest';
import { openFurnishedRoom, sample, type TestRoom } from '../room.js';
import { barMapSvg } from '../../../src/web/weeks/barMap.js';

/** Three of the demo's recordings of one piece, filed under one pupil. */
async function roomWithThree(): Promise<TestRoom> {
  const room = await openFurnishedRoom();
  const scoreId = room.store.scoreOfPiece(1).id;
  for (const name of ['mei-castellow-2025-10-21', 'jonas-brekkewood-2025-10-14']) {
    room.store.addRecording({ pupilId: 1, scoreId, line: 'once through', file: sample(`rowing-home/${name}.mid`), receivedAt: `${name.slice(-10)}T20:00:00` });
  }
  return room;
}

const WEEKS = '/pupils/mei-castellow/pieces/rowing-home';

/** The page once every recording has been looked at. */
async function settled(room: TestRoom): Promise<string> {
  for (;;) {
    const { body } = await room.call(WEEKS);
    if (!body.includes('still being looked at')) return body;
    await new Promise((resolve) => setTimeout(resolve, 20));
  }
}

describe('a piece through the weeks', () => {
  it('has a row for each recording, with its numbers, and compares each with the one before', async () => {
    const body = await settled(await roomWithThree());
    expect(body.match(/<tr data-at=/g)).toHaveLength(3);
    expect(body.match(/\/since\/\d/g)).toHaveLength(2);
    // planned: in the first recording she goes back twice
    expect(Number(/data-at="2025-10-07[^>]*data-stops="(\d+)"/.exec(body)?.[1])).toBeGreaterThanOrEqual(2);
  });

  it('shows one aspect on request, and everything for an odd one', async () => {
    const room = await roomWithThree();
    await settled(room);
    expect((await room.call(`${WEEKS}?aspect=route`)).body).toMatch(/aria-current="true">route</);
    expect((await room.call(`${WEEKS}?aspect=x`)).body).toMatch(/aria-current="true">everything</);
  });

  it('follows comments', async () => {
    const room = await roomWithThree();
    room.store.addComment({ recordingId: 1, key: '00000000-0000-4000-8000-000000000001', bars: ['7', '7'], barIndexes: [6, 6], pass: null, attempt: null, text: 'Try 7 by itself.' });
    expect(await settled(room)).toContain('Try 7 by itself.');
  });

  it.each(['/pupils/mei-castellow/pieces/none', '/pupils/nobody/pieces/rowing-home'])('has nothing at %s', async (path) => {
    expect((await (await openFurnishedRoom()).call(path)).status).toBe(404);
  });
});

describe('the map', () => {
  it('draws a line for a bar that was played, hatches one with a remark, and leaves one out that was not played', () => {
    const row = { name: 'a', href: '/a', played: new Set([0, 1]), seen: new Set([1]), worth: new Set([1]) };
    const svg = barMapSvg({ rows: [row], numbers: ['1', '2', '3'], variant: 'wide' });
    expect(svg.match(/class="line"/g)).toHaveLength(2);
    expect(svg.match(/class="stroke"/g)).toHaveLength(1);
  });

  it('goes on in further lines where a piece is long', () => {
    const numbers = Array.from({ length: 90 }, (_, i) => String(i + 1));
    // at most 40 bars in a line of the wide map: 90 bars are three lines
    expect(barMapSvg({ rows: [], numbers, variant: 'wide' }).match(/translate\(/g)).toHaveLength(3);
  });
});
