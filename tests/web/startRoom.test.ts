import { createServer } from 'node:http';
import { networkInterfaces } from 'node:os';
import { describe, expect, it, onTestFinished } from 'vitest';
import { InputError } from '../../src/base/index.js';
import { ROOM_PORT, startRoom, type OpenRoom, type RoomOptions } from '../../src/web/index.js';
import { ownFolder } from '../store/folder.js';
import { plainPipeline } from './room.js';

async function open(options: RoomOptions): Promise<OpenRoom> {
  const room = await startRoom({ pipeline: plainPipeline(), port: 0, ...options });
  onTestFinished(() => room.close());
  return room;
}

describe('the room', () => {
  it('takes the next port where its own is taken', async () => {
    const taken = createServer();
    await new Promise<void>((resolve) => taken.listen(0, '127.0.0.1', resolve));
    onTestFinished(() => void taken.close());
    const address = taken.address();
    const port = typeof address === 'object' && address !== null ? address.port : ROOM_PORT;
    const room = await open({ data: ownFolder(), port, demo: false });
    expect(room.port).toBeGreaterThan(port);
    expect(room.address).toBe(`http://127.0.0.1:${room.port}/`);
    expect((await fetch(room.address)).status).toBe(200);
  });

  it('says in words that no port is to be had, and leaves nothing open', async () => {
    // the last port there is, so that no other is tried after it; taken by this test or by whoever had it before
    const taken = createServer();
    await new Promise<void>((resolve) => taken.once('error', () => resolve()).listen(65_535, '127.0.0.1', resolve));
    onTestFinished(() => void taken.close());
    let closed = false;
    const pipeline = { ...plainPipeline(), close: () => Promise.resolve(void (closed = true)) };
    const opening = startRoom({ pipeline, port: 65_535, data: ownFolder(), demo: false });
    await expect(opening).rejects.toThrow(InputError);
    await expect(opening).rejects.toMatchObject({ code: 'unsupported', message: expect.stringContaining('Port 65535 is in use') as string });
    expect(closed).toBe(true);
  });

  it('answers on the loopback address only', async () => {
    const room = await open({ data: ownFolder(), demo: false });
    const outside = Object.values(networkInterfaces()).flat().filter((one) => one?.family === 'IPv4' && !one.internal);
    for (const one of outside) await expect(fetch(`http://${one!.address}:${room.port}/`)).rejects.toThrow(TypeError);
    expect((await fetch(room.address)).status).toBe(200);
  });

  it('puts the demo room into an empty folder, once, and says that it is invented', async () => {
    const data = ownFolder();
    const first = await startRoom({ pipeline: plainPipeline(), port: 0, data });
    const page = await (await fetch(first.address)).text();
    await first.close();
    const again = await open({ data });
    const second = await (await fetch(again.address)).text();
    expect(page).toContain('every person, piece and playing in it is invented');
    // room.json plans 21 recordings, and one file that is none
    expect(new Set(page.match(/id="recording-\d+"/g)).size).toBe(22);
    expect(new Set(second.match(/id="recording-\d+"/g)).size).toBe(22);
    const review = await (await fetch(`${again.address}pupils/mei-castellow/recordings/1`)).text();
    expect(review).toContain('demo room, all invented');
  });

  it('opens all the same where no recording can be read, says so on each line, and tries no more', async () => {
    const log: string[] = [];
    const pipeline = { ...plainPipeline(), reading: () => Promise.reject(new RangeError('no reader')) };
    const room = await open({ data: ownFolder(), pipeline, log: (line) => log.push(line) });
    expect(await (await fetch(room.address)).text()).toContain('being read');
    await expect.poll(() => log.length).toBe(22);
    expect((await (await fetch(room.address)).text()).match(/Something went wrong inside Barwise; the file is kept\./g)).toHaveLength(22);
    await fetch(room.address);
    expect(new Set(log)).toEqual(new Set(['a glance could not be made: RangeError']));
    expect(log).toHaveLength(22);
  });
});
