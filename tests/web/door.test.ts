import { describe, expect, it } from 'vitest';
import { hashPassphrase, isPassphrase } from '../../src/web/passphrase.js';
import { createLoginLimit } from '../../src/web/loginLimit.js';
import { isOwnComputer, namesFor, reachableAddresses } from '../../src/web/ownNames.js';
import { startRoom, type RoomOptions } from '../../src/web/index.js';
import { handClock, ownFolder } from '../store/folder.js';
import { openTestRoom, plainPipeline, sample, type Answer, type TestRoom } from './room.js';

const PASSPHRASE = 'four harbour lanterns swing';
/** Cheap, for tests alone: 1 MB. */
const CHEAP = { N: 1024, r: 8, p: 1 };
/** As a tablet calls the room. */
const HOST = 'barwise.local:4711';
const OWN = { host: HOST, origin: `http://${HOST}` };

/** A room with a door and everything in it. */
async function lockedRoom(clock = handClock('2026-03-03T18:00:00.000Z')): Promise<TestRoom> {
  const room = await openTestRoom(plainPipeline(), { door: { names: () => new Set(['barwise.local', '192.168.1.7']) }, now: clock.now });
  room.store.setSetting('passphrase', await hashPassphrase(PASSPHRASE, CHEAP));
  const pupil = room.store.addPupil('Mei Castellow');
  const piece = room.store.addPiece({ title: 'Rowing Home', score: sample('rowing-home/score.musicxml') });
  room.store.addRecording({ pupilId: pupil.id, scoreId: room.store.scoreOfPiece(piece.id).id, file: sample('rowing-home/mei-castellow-2025-10-07.mid'), line: 'once through' });
  return room;
}

/** Says a passphrase. */
const say = (room: TestRoom, passphrase: string, to = '/'): Promise<Answer> => room.post('/come-in', { passphrase, to }, OWN);
/** The cookie that came back, as it is sent again. */
const cookieOf = ({ headers }: Answer): string => String(headers['set-cookie']?.[0]).split(';')[0] ?? '';

/** A route of the app. */
interface Listed {
  readonly method: string;
  readonly path: string;
}

/** What an express router keeps of its routes; read here only, so that no route can be forgotten in a list by hand. */
interface Layer {
  readonly route?: { readonly path: string | readonly string[]; readonly methods: Readonly<Record<string, boolean>> };
  readonly handle: { readonly stack?: readonly Layer[] };
}

/** Every route, its parameters filled with what is there. */
function routesOf(room: TestRoom): readonly Listed[] {
  const walk = (layers: readonly Layer[]): readonly Listed[] =>
    layers.flatMap(({ route, handle }) => {
      const own = route === undefined ? [] : [route.path].flat().flatMap((path) => Object.keys(route.methods).map((method) => ({ method: method.toUpperCase(), path: filled(path) })));
      return [...own, ...(handle.stack === undefined ? [] : walk(handle.stack))];
    });
  return walk((room.app.router as unknown as { readonly stack: readonly Layer[] }).stack);
}

/** "/pupils/mei-castellow/recordings/1". */
function filled(path: string): string {
  const slug = path.startsWith('/pieces') ? 'rowing-home' : 'mei-castellow';
  return path.replace(/:slug/g, slug).replace(/:\w+/g, '1').replace(/[{}]/g, '');
}

/** Outside the door stand only the door itself, and going out. */
const OUTSIDE = new Set(['GET /come-in', 'POST /come-in', 'POST /leave']);

describe('every route of a room with a door', () => {
  it('refuses without the passphrase, with a wrong cookie, from another site, without an origin, under a foreign name', async () => {
    const room = await lockedRoom();
    const cookie = cookieOf(await say(room, PASSPHRASE));
    const routes = routesOf(room).filter(({ method, path }) => !OUTSIDE.has(`${method} ${path}`));
    // desk, pupil, piece, review, comments, decisions, files, settings, plan, sound and more
    expect(routes.length).toBeGreaterThan(25);
    const before = JSON.stringify([room.store.comments(1), room.store.setting('language'), room.store.planVersions(1), room.store.recordings()]);
    for (const { method, path } of routes) {
      const type = { 'content-type': 'application/x-www-form-urlencoded' };
      const send = (headers: Readonly<Record<string, string>>): Promise<Answer> => room.call(path, { method, headers: { ...type, ...headers }, ...(method === 'POST' ? { body: 'text=planted&act=program&language=american&key=x' } : {}) });
      const name = `${method} ${path}`;
      const nobody = await send(OWN);
      expect([name, nobody.status]).toEqual([name, 401]);
      expect(nobody.body).not.toMatch(/Mei|Rowing/);
      expect([name, (await send({ ...OWN, cookie: `${cookie}x` })).status]).toEqual([name, 401]);
      expect([name, (await send({ ...OWN, cookie: 'barwise-session=' })).status]).toEqual([name, 401]);
      expect([name, (await send({ ...OWN, host: 'evil.example', cookie })).status]).toEqual([name, 421]);
      if (method === 'GET') continue;
      expect([name, (await send({ ...OWN, origin: 'http://evil.example', cookie })).status]).toEqual([name, 403]);
      expect([name, (await send({ ...OWN, origin: 'http://barwise.local:8080', cookie })).status]).toEqual([name, 403]);
      expect([name, (await send({ host: HOST, cookie })).status]).toEqual([name, 403]);
    }
    expect(JSON.stringify([room.store.comments(1), room.store.setting('language'), room.store.planVersions(1), room.store.recordings()])).toBe(before);
  }, 60_000);

  it('refuses what is no route, too, and other methods', async () => {
    const room = await lockedRoom();
    for (const method of ['GET', 'HEAD', 'OPTIONS', 'PUT', 'DELETE']) expect((await room.call('/nowhere', { method, headers: OWN })).status).toBe(401);
  });

  it('serves styles and scripts before the door, and nothing else', async () => {
    const room = await lockedRoom();
    expect((await room.call('/assets/main.css', { headers: OWN })).status).toBe(200);
    expect((await room.call('/assets/../data/barwise.sqlite', { headers: OWN })).status).toBe(401);
    expect((await room.call('/assets/nowhere.css', { headers: OWN })).status).toBe(401);
  });
});

describe('the door', () => {
  it('opens to the passphrase, with a cookie that no script and no other site gets', async () => {
    const room = await lockedRoom();
    const answer = await say(room, PASSPHRASE, '/pieces/rowing-home');
    expect(answer.status).toBe(303);
    expect(answer.headers.location).toBe('/pieces/rowing-home');
    const cookie = String(answer.headers['set-cookie']?.[0]);
    expect(cookie).toMatch(/^barwise-session=[\w-]{43}; Max-Age=2592000; Path=\/; Expires=[^;]+; HttpOnly; SameSite=Strict$/);
    expect((await room.call('/', { headers: { ...OWN, cookie: cookieOf(answer) } })).status).toBe(200);
    // the database holds the hash of the cookie, not the cookie
    expect(room.store.hasSession(cookieOf(answer).split('=')[1]!)).toBe(false);
  });

  it.each(['', 'four harbour lanterns swin', 'x'.repeat(5000)])('stays shut to %j', async (wrong) => {
    const room = await lockedRoom();
    const answer = await say(room, wrong);
    expect([401, 413]).toContain(answer.status);
    expect(answer.headers['set-cookie']).toBeUndefined();
  });

  it('leads to no other site', async () => {
    const room = await lockedRoom();
    for (const to of ['//evil.example', 'https://evil.example', '/\\evil.example', '']) expect((await say(room, PASSPHRASE, to)).headers.location).toBe('/');
  });

  it('takes no form from another site', async () => {
    const room = await lockedRoom();
    expect((await room.post('/come-in', { passphrase: PASSPHRASE }, { ...OWN, origin: 'http://evil.example' })).status).toBe(403);
    expect((await room.post('/come-in', { passphrase: PASSPHRASE }, { host: HOST })).status).toBe(403);
  });

  it('makes a device that guesses wait, and forgets it after a quarter of an hour', async () => {
    const clock = handClock('2026-03-03T18:00:00.000Z');
    const room = await lockedRoom(clock);
    for (let i = 0; i < 5; i++) expect((await say(room, `wrong guess number ${i}`)).status).toBe(401);
    const waiting = await say(room, PASSPHRASE);
    expect(waiting.status).toBe(429);
    expect(waiting.headers['retry-after']).toBe('900');
    expect(waiting.body).toContain('Wait 15 minutes');
    clock.set('2026-03-03T18:15:00.000Z');
    expect((await say(room, PASSPHRASE)).status).toBe(303);
  });

  it('is shut again by leaving, by time, and by another passphrase', async () => {
    const clock = handClock('2026-03-03T18:00:00.000Z');
    const room = await lockedRoom(clock);
    const enter = async (): Promise<string> => cookieOf(await say(room, PASSPHRASE));
    const status = async (cookie: string): Promise<number> => (await room.call('/', { headers: { ...OWN, cookie } })).status;
    const [first, second] = [await enter(), await enter()];
    await room.post('/leave', {}, { ...OWN, cookie: first });
    expect([await status(first), await status(second)]).toEqual([401, 200]);
    clock.set('2026-04-02T18:00:00.000Z');
    expect(await status(second)).toBe(401);
  });
});

describe('opening the room to others', () => {
  const start = (options: RoomOptions) => startRoom({ port: 0, data: ownFolder(), demo: false, pipeline: plainPipeline(), ...options });

  it('needs a passphrase', async () => {
    await expect(start({ host: '0.0.0.0' })).rejects.toMatchObject({ name: 'InputError', code: 'unsupported' });
    await expect(start({ host: '0.0.0.0', passphrase: '' })).rejects.toMatchObject({ code: 'unsupported' });
    await expect(start({ host: '0.0.0.0', passphrase: 'short' })).rejects.toMatchObject({ code: 'bad-value' });
  });

  it('keeps it for the next time, and asks everybody, this computer too', async () => {
    const data = ownFolder();
    const first = await start({ data, host: '0.0.0.0', passphrase: PASSPHRASE });
    expect((await fetch(first.address)).status).toBe(401);
    await first.close();
    const second = await start({ data, host: '0.0.0.0' });
    expect((await fetch(second.address)).status).toBe(401);
    await second.close();
    const alone = await start({ data });
    expect((await fetch(alone.address)).status).toBe(200);
    expect(alone.elsewhere).toEqual([]);
    await alone.close();
  });

  it('says where this computer has no such address', async () => {
    // 203.0.113.0/24 belongs to documentation alone (RFC 5737)
    await expect(start({ host: '203.0.113.9', passphrase: PASSPHRASE })).rejects.toMatchObject({ name: 'InputError', code: 'unsupported' });
  });
});

describe('the passphrase', () => {
  it('is kept as a hash with a salt of its own, and known again however it is typed', async () => {
    const [one, other] = await Promise.all([hashPassphrase('Café im Hafen, spät', CHEAP), hashPassphrase('Café im Hafen, spät', CHEAP)]);
    expect(one).not.toBe(other);
    expect(one).toMatch(/^scrypt\$1024\$8\$1\$[\w-]{22}\$[\w-]{43}$/);
    // é as one character, and as e with an accent put on
    expect(await isPassphrase(' Cafe\u0301 im Hafen, spa\u0308t ', one)).toBe(true);
    expect(await isPassphrase('Cafe im Hafen, spat', one)).toBe(false);
  });

  it('costs 128 MB', async () => {
    // N = 2^17, r = 8: 128 · N · r bytes = 134,217,728
    expect(await hashPassphrase(PASSPHRASE)).toMatch(/^scrypt\$131072\$8\$1\$/);
  });

  it('has a length', async () => {
    await expect(hashPassphrase('eleven char', CHEAP)).rejects.toMatchObject({ name: 'InputError', code: 'bad-value' });
    await expect(hashPassphrase('twelve chars', CHEAP)).resolves.toMatch(/^scrypt/);
    await expect(hashPassphrase('x'.repeat(201), CHEAP)).rejects.toMatchObject({ name: 'InputError', code: 'too-large' });
  });

  it('is not looked for in what this program did not write', async () => {
    await expect(isPassphrase(PASSPHRASE, 'plain text')).rejects.toThrow(TypeError);
    await expect(isPassphrase(PASSPHRASE, 'scrypt$1073741824$8$1$AAAA$AAAA')).rejects.toThrow(TypeError);
  });
});

describe('tries', () => {
  it('are counted by device, and for all devices together', () => {
    const clock = handClock('2026-03-03T18:00:00.000Z');
    const limit = createLoginLimit(clock.now);
    for (let i = 0; i < 4; i++) limit.failed('a');
    expect(limit.waitS('a')).toBe(0);
    limit.failed('a');
    expect([limit.waitS('a'), limit.waitS('b')]).toEqual([900, 0]);
    limit.succeeded('a');
    expect(limit.waitS('a')).toBe(0);
    for (let i = 0; i < 50; i++) limit.failed(`device ${i}`);
    clock.set('2026-03-03T18:10:00.000Z');
    expect(limit.waitS('b')).toBe(300);
  });

  it('take turns, and are sent away where too many wait', async () => {
    const limit = createLoginLimit(() => new Date());
    let running = 0;
    let most = 0;
    const work = async (): Promise<void> => {
      most = Math.max(most, ++running);
      await new Promise((resolve) => setTimeout(resolve, 1));
      running -= 1;
    };
    const all = Array.from({ length: 8 }, () => limit.inTurn(work));
    expect(all.filter((one) => one === null)).toHaveLength(3);
    for (const one of all) await one;
    expect(most).toBe(1);
    expect(limit.inTurn(work)).not.toBeNull();
  });
});

describe('names', () => {
  it('are this computer’s own, or what others call it by', () => {
    for (const host of ['localhost', '127.0.0.1', '127.4.5.6', '::1']) expect(isOwnComputer(host)).toBe(true);
    for (const host of ['0.0.0.0', '::', '192.168.1.7', '127.0.0.1.example']) expect(isOwnComputer(host)).toBe(false);
    expect(reachableAddresses('192.168.1.7')).toEqual(['192.168.1.7']);
    expect(namesFor('fd00::7')).toContain('[fd00::7]');
    expect(namesFor('192.168.1.7')).toContain('localhost');
  });
});
