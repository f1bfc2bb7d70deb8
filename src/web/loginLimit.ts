/**
 * How often the passphrase may be tried. A device that guesses has to wait; so has everybody once very many guesses come from everywhere, since
 * addresses in a network cost nothing. The right passphrase is never worn out by its own use.
 */

/** Wrong tries of one device before it waits, and of all devices together. */
const TRIES = { device: 5, all: 50 } as const;

/** After so long a wrong try is forgotten, ms. */
const FORGOTTEN_MS = 15 * 60_000;

/** At most so many tries are being worked on or wait: each takes 128 MB while its turn lasts, and they take turns. */
const MOST_WAITING = 5;

/** Counts tries. */
export interface LoginLimit {
  /** Seconds that a device has to wait before its next try; 0 where it may try now. */
  waitS(device: string): number;
  /** Works on one try after another; null where too many wait already. */
  inTurn<T>(work: () => Promise<T>): Promise<T> | null;
  /** Notes a wrong try. */
  failed(device: string): void;
  /** Forgets the wrong tries of a device that knew it in the end. */
  succeeded(device: string): void;
}

/** A wrong try. */
interface WrongTry {
  readonly device: string;
  readonly atMs: number;
}

/** A limit that has seen nothing yet. */
export function createLoginLimit(now: () => Date): LoginLimit {
  let wrong: readonly WrongTry[] = [];
  let waiting = 0;
  let last: Promise<unknown> = Promise.resolve();
  const recent = (): readonly WrongTry[] => {
    const from = now().getTime() - FORGOTTEN_MS;
    wrong = wrong.filter(({ atMs }) => atMs > from);
    return wrong;
  };
  const waitFor = (tries: readonly WrongTry[], most: number): number => {
    const first = tries.length < most ? undefined : tries[tries.length - most];
    return first === undefined ? 0 : Math.ceil((first.atMs + FORGOTTEN_MS - now().getTime()) / 1000);
  };
  return {
    waitS: (device) => Math.max(waitFor(recent().filter((one) => one.device === device), TRIES.device), waitFor(recent(), TRIES.all)),
    inTurn: (work) => {
      if (waiting >= MOST_WAITING) return null;
      waiting += 1;
      const mine = last.then(work).finally(() => (waiting -= 1));
      last = mine.catch(() => undefined);
      return mine;
    },
    failed: (device) => (wrong = [...recent(), { device, atMs: now().getTime() }]),
    succeeded: (device) => (wrong = recent().filter((one) => one.device !== device)),
  };
}
