/**
 * The passphrase that opens the room to other devices. Only a memory-hard hash of it is kept (scrypt, Percival 2009, RFC 7914): whoever gets
 * hold of the data folder has to spend much memory and time on every guess.
 */
import { randomBytes, scrypt, timingSafeEqual } from 'node:crypto';
import { InputError } from '../base/index.js';

/** What one hash costs: 128 · N · r bytes of memory. */
export interface HashCost {
  readonly N: number;
  readonly r: number;
  readonly p: number;
}

/** 128 MB and some tenths of a second on a laptop; the OWASP Password Storage Cheat Sheet names N = 2^17, r = 8, p = 1. */
export const USUAL_COST: HashCost = { N: 2 ** 17, r: 8, p: 1 };

/** Bytes of salt and hash. */
const SALT_BYTES = 16;
const HASH_BYTES = 32;

/** Most memory (<=) that a stored hash may ask for, bytes: twice the usual one, so that a spoilt database cannot take the machine down. */
const MOST_MEMORY = 256 * 1024 * 1024;

/** Shortest passphrase (>=), characters: about three words; NIST SP 800-63B asks for 15 where nothing else guards the door, fewer with a limit on tries. */
export const SHORTEST_PASSPHRASE = 12;

/** Longest passphrase (<=), characters: more was pasted by mistake. */
export const LONGEST_PASSPHRASE = 200;

/**
 * Hashes a passphrase for keeping: "scrypt$N$r$p$salt$hash".
 * @throws InputError code `bad-value` or `too-large` for its length
 */
export async function hashPassphrase(passphrase: string, cost: HashCost = USUAL_COST): Promise<string> {
  const tidy = tidied(passphrase);
  if (tidy.length < SHORTEST_PASSPHRASE) throw new InputError('bad-value', `The passphrase needs ${SHORTEST_PASSPHRASE} characters at least: three or four words that do not belong together are good.`);
  if (tidy.length > LONGEST_PASSPHRASE) throw new InputError('too-large', `The passphrase is longer than ${LONGEST_PASSPHRASE} characters.`);
  const salt = randomBytes(SALT_BYTES);
  const hash = await derive(tidy, salt, cost);
  return ['scrypt', cost.N, cost.r, cost.p, salt.toString('base64url'), hash.toString('base64url')].join('$');
}

/** Whether a passphrase is the one that was hashed. Takes the same time whatever is wrong with it. @throws TypeError for a hash that this program did not write */
export async function isPassphrase(passphrase: string, kept: string): Promise<boolean> {
  const [kind, N, r, p, salt, hash] = kept.split('$');
  const cost = { N: Number(N), r: Number(r), p: Number(p) };
  if (kind !== 'scrypt' || salt === undefined || hash === undefined || !(128 * cost.N * cost.r <= MOST_MEMORY)) throw new TypeError('a passphrase kept in an unknown form');
  const expected = Buffer.from(hash, 'base64url');
  const found = await derive(tidied(passphrase).slice(0, LONGEST_PASSPHRASE), Buffer.from(salt, 'base64url'), cost);
  return expected.length === found.length && timingSafeEqual(expected, found);
}

/** The same words typed on different keyboards are the same passphrase (Unicode NFKC), spaces at the ends apart. */
function tidied(passphrase: string): string {
  return passphrase.normalize('NFKC').trim();
}

/** One hash, off the main thread. */
async function derive(passphrase: string, salt: Buffer, { N, r, p }: HashCost): Promise<Buffer> {
  return new Promise((resolve, reject) => {
    scrypt(passphrase, salt, HASH_BYTES, { N, r, p, maxmem: MOST_MEMORY + 1024 * 1024 }, (error, hash) => (error === null ? resolve(hash) : reject(error)));
  });
}
