/**
 * Recording here: the page that listens to a keyboard, and the address that takes what was recorded. A take carries a key of its own in the
 * file; sent again after a lost connection it is the same file to the last byte, which the store knows, and at one moment it is filed once.
 */
import express, { Router } from 'express';
import { InputError } from '../base/index.js';
import { messagesBytes, type KeyboardMessage } from '../recording/index.js';
import { statusOf, told } from './errors.js';
import { fileUpload } from './filing.js';
import type { Filed } from './filed.js';
import type { Room } from './shared.js';
import { titlesOf } from './titles.js';
import { sendPage } from './views.js';

/** Most messages in a take: an hour of the quickest playing with a pedal that reports all the time stays below half of it. */
const MOST_MESSAGES = 400_000;

/** A message as JSON takes at most some 28 bytes. */
const LARGEST_TAKE = '12mb';

/** Longest take, seconds: a whole day means that somebody has forgotten to stop. */
const LONGEST_S = 86_400;

/** A take as the page sends it. */
interface SentTake {
  readonly key: string;
  readonly startedAt: string;
  readonly pupil: string;
  readonly newPupil: string;
  readonly piece: string;
  readonly messages: readonly KeyboardMessage[];
}

/** The page, and what it sends. */
export function recorderRoutes(room: Room): Router {
  const router = Router();
  const filing = new Map<string, Promise<Filed>>();
  router.get('/record', (request, response) => {
    const titles = titlesOf(room);
    const asked = (name: string): string => textOf(request.query[name]);
    sendPage(response, {
      view: 'recorder', title: 'Record here',
      pupils: room.store.pupils().map(({ slug, name }) => ({ slug, name, chosen: slug === asked('pupil') })),
      pieces: room.store.pieces().map(({ id, slug, title }) => ({ slug, whole: titles.get(id)?.whole ?? title, chosen: slug === asked('piece') })),
    });
  });
  router.post('/record', express.json({ limit: LARGEST_TAKE }), async (request, response) => {
    try {
      const take = takeOf(request.body);
      const turn = filing.get(take.key) ?? fileOne(room, take).finally(() => filing.delete(take.key));
      filing.set(take.key, turn);
      const { ok, text, href } = await turn;
      response.status(ok ? 200 : 422).json({ ok, text, href });
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      response.status(statusOf(error)).json({ ok: false, text: told(error, room.language), href: null });
    }
  });
  return router;
}

/** Files one take as if it had come as a file. */
async function fileOne(room: Room, { key, startedAt, pupil, newPupil, piece, messages }: SentTake): Promise<Filed> {
  const name = `recorded ${startedAt.slice(0, 16).replace('T', ' ').replace(':', '.')}.mid`;
  const bytes = messagesBytes(messages, { name: `Recorded here, ${key}` });
  const upload = { fields: new Map([['pupil', pupil], ['newPupil', newPupil], ['piece', piece]]), files: [{ field: 'recordings', name, bytes, at: 0 }], refused: [] };
  const { filed } = await fileUpload(room, upload, () => undefined);
  const [one] = filed;
  if (one === undefined) throw new TypeError('a take was neither filed nor refused');
  return one;
}

/** A take as it was sent. @throws InputError code `bad-value` where it is none */
function takeOf(body: unknown): SentTake {
  if (typeof body !== 'object' || body === null) throw notATake();
  const fields = new Map<string, unknown>(Object.entries(body));
  const [key, startedAt, sent] = [textOf(fields.get('key')), textOf(fields.get('startedAt')), fields.get('messages')];
  if (!/^[0-9a-f-]{8,64}$/.test(key) || Number.isNaN(Date.parse(startedAt)) || !Array.isArray(sent) || sent.length > MOST_MESSAGES) throw notATake();
  if (textOf(fields.get('pupil')) === '' && textOf(fields.get('newPupil')).trim() === '') throw new InputError('not-found', 'Say whose recording this is.');
  return { key, startedAt: new Date(startedAt).toISOString(), pupil: textOf(fields.get('pupil')), newPupil: textOf(fields.get('newPupil')).slice(0, 200), piece: textOf(fields.get('piece')), messages: sent.map(messageOf) };
}

/** One message: [milliseconds, status, first, second]. @throws InputError code `bad-value` */
function messageOf(sent: unknown): KeyboardMessage {
  if (!Array.isArray(sent) || sent.length !== 4 || !sent.every((value) => typeof value === 'number' && Number.isFinite(value))) throw notATake();
  const [ms, status, first, second] = sent.map(Number);
  const isByte = (value: number | undefined, low: number, high: number): boolean => Number.isInteger(value) && value !== undefined && value >= low && value <= high;
  if (ms === undefined || ms < 0 || ms > LONGEST_S * 1000 || !isByte(status, 0x80, 0xef) || !isByte(first, 0, 127) || !isByte(second, 0, 127)) throw notATake();
  return { timeS: ms / 1000, status: status ?? 0, first: first ?? 0, second: second ?? 0 };
}

/** A text, or "". */
function textOf(value: unknown): string {
  return typeof value === 'string' ? value : '';
}

/** What was sent is not what the page sends. */
function notATake(): InputError {
  return new InputError('bad-value', 'What arrived is no recording from a keyboard.');
}
