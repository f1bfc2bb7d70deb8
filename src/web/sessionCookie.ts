/** The cookie of somebody who has said the passphrase: a random number that means nothing; the store knows its hash. */
import { createHash, randomBytes } from 'node:crypto';
import type { Request, Response } from 'express';

/** Name of the cookie. */
const NAME = 'barwise-session';

/** How long a device stays known, days: a tablet on the music desk should not ask every week. */
const DAYS = 30;

/** Bytes of the number: far beyond guessing. */
const TOKEN_BYTES = 32;

/** Milliseconds of a day. */
const DAY_MS = 86_400_000;

/** A new session: what the device is told, what is kept, and until when. */
export function newSession(now: Date): { readonly token: string; readonly tokenHash: string; readonly endsAt: string } {
  const token = randomBytes(TOKEN_BYTES).toString('base64url');
  return { token, tokenHash: hashOf(token), endsAt: new Date(now.getTime() + DAYS * DAY_MS).toISOString() };
}

/** Gives the cookie out: no script can read it, and no other site can have it sent along. */
export function giveCookie(response: Response, token: string): void {
  response.cookie(NAME, token, { httpOnly: true, sameSite: 'strict', path: '/', maxAge: DAYS * DAY_MS });
}

/** Takes it back. */
export function takeCookie(response: Response): void {
  response.clearCookie(NAME, { httpOnly: true, sameSite: 'strict', path: '/' });
}

/** Hash of the number that a request brings, or null. */
export function tokenHashOf(request: Request): string | null {
  const pairs = (request.headers.cookie ?? '').split(';').map((pair) => pair.trim());
  const token = pairs.find((pair) => pair.startsWith(`${NAME}=`))?.slice(NAME.length + 1);
  return token === undefined || token === '' ? null : hashOf(token);
}

/** SHA-256, hex. */
function hashOf(token: string): string {
  return createHash('sha256').update(token).digest('hex');
}
