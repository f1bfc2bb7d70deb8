/**
 * The door of a room that other devices can reach: nothing but the passphrase opens it, and whoever has said it is known by a cookie for some
 * weeks. On this computer alone there is no door.
 */
import { Router, urlencoded, type Request, type RequestHandler, type Response } from 'express';
import { fieldOf } from './commentForm.js';
import { createLoginLimit, type LoginLimit } from './loginLimit.js';
import { isPassphrase, LONGEST_PASSPHRASE } from './passphrase.js';
import { giveCookie, newSession, takeCookie, tokenHashOf } from './sessionCookie.js';
import { ownAddress } from './ownAddress.js';
import type { Room } from './shared.js';
import { sendPage } from './views.js';

/** How the room can be reached from other devices. */
export interface Door {
  /** Names and addresses under which the room may be called, in lower case. */
  readonly names: () => ReadonlySet<string>;
}

/** Under this name the hash of the passphrase is kept among the settings. */
export const PASSPHRASE_SETTING = 'passphrase';

/** Largest form of the door, bytes: a passphrase with every character as nine, and an address. */
const LARGEST_FORM = LONGEST_PASSPHRASE * 9 + 4096;

/** Where the passphrase is said. */
const COME_IN = '/come-in';

/** What stands outside the door: saying the passphrase, and going out. */
export function doorRoutes(room: Room): Router {
  const router = Router();
  const limit = createLoginLimit(room.now);
  const form = urlencoded({ extended: false, limit: LARGEST_FORM, parameterLimit: 4 });
  router.get(COME_IN, (_request, response) => showDoor(response, { status: 200, problem: '', to: '/' }));
  router.post(COME_IN, form, (request, response) => comeIn(room, limit, { request, response }));
  router.post('/leave', (request, response) => {
    const tokenHash = tokenHashOf(request);
    if (tokenHash !== null) room.store.endSessions(tokenHash);
    takeCookie(response);
    response.redirect(303, COME_IN);
  });
  return router;
}

/** Lets nobody further who has not said the passphrase. */
export function onlyInvited(room: Room): RequestHandler {
  return (request, response, next) => {
    const tokenHash = tokenHashOf(request);
    if (tokenHash !== null && room.store.hasSession(tokenHash)) {
      response.locals['canLeave'] = true;
      next();
    } else showDoor(response, { status: 401, problem: '', to: request.method === 'GET' ? request.originalUrl : '/' });
  };
}

/** Takes a passphrase. */
async function comeIn(room: Room, limit: LoginLimit, { request, response }: { readonly request: Request; readonly response: Response }): Promise<void> {
  const device = request.socket.remoteAddress ?? '';
  const to = ownAddress(fieldOf(request, 'to'));
  const waitS = limit.waitS(device);
  if (waitS > 0) {
    tooOften(response, to, waitS);
    return;
  }
  const right = await (limit.inTurn(() => isRight(room, fieldOf(request, 'passphrase'))) ?? 'full');
  if (right === 'full') tooOften(response, to, 10);
  else if (right) {
    limit.succeeded(device);
    const { token, tokenHash, endsAt } = newSession(room.now());
    room.store.addSession(tokenHash, endsAt);
    giveCookie(response, token);
    response.redirect(303, to);
  } else {
    limit.failed(device);
    room.log('a wrong passphrase was said at the door');
    showDoor(response, { status: 401, problem: 'That is not the passphrase of this room.', to });
  }
}

/** Whether this is the passphrase; false where none is set any more. */
async function isRight(room: Room, said: string): Promise<boolean> {
  const kept = room.store.setting(PASSPHRASE_SETTING);
  return kept !== null && said !== '' && isPassphrase(said, kept);
}

/** Asks for patience. */
function tooOften(response: Response, to: string, waitS: number): void {
  response.set('Retry-After', String(waitS));
  const minutes = Math.ceil(waitS / 60);
  showDoor(response, { status: 429, problem: `Too many wrong tries. Wait ${minutes === 1 ? 'a minute' : `${minutes} minutes`} and try once more.`, to });
}

/** The page before the door. */
function showDoor(response: Response, { status, problem, to }: { readonly status: number; readonly problem: string; readonly to: string }): void {
  response.set('Cache-Control', 'no-store');
  sendPage(response, { view: 'door', title: 'The passphrase', status, problem, to, action: COME_IN, locked: true });
}
