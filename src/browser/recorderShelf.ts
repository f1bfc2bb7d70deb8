/**
 * Takes on the browser's own shelf (IndexedDB): every message is written as it comes, and a take goes only when the room has said that it is
 * on its disk, or somebody throws it away.
 */

/** A message: milliseconds since the start of the take, and its three bytes. */
export type Message = readonly [ms: number, status: number, first: number, second: number];

/** A take on the shelf, without its messages. */
export interface ShelvedTake {
  /** Made with the take; the room knows by it what it has already. */
  readonly key: string;
  readonly startedAt: string;
  readonly pupil: string;
  readonly newPupil: string;
  readonly piece: string;
  /** `recording` until it is stopped, `stopped` until somebody wants it, `wanted` until the room has it. */
  readonly state: 'recording' | 'stopped' | 'wanted';
}

/** Some messages of a take, in order. */
interface Part {
  readonly key: string;
  readonly part: number;
  readonly messages: readonly Message[];
}

const NAME = 'barwise-takes';
const VERSION = 1;

/** The shelf of this browser. */
export class Shelf {
  readonly #database: IDBDatabase;

  private constructor(database: IDBDatabase) {
    this.#database = database;
  }

  /** @throws DOMException where this browser keeps nothing (private windows of some) */
  static async open(): Promise<Shelf> {
    const request = indexedDB.open(NAME, VERSION);
    request.onupgradeneeded = () => {
      request.result.createObjectStore('takes', { keyPath: 'key' });
      request.result.createObjectStore('parts', { keyPath: ['key', 'part'] });
    };
    return new Shelf(await answered(request));
  }

  /** Puts a take on the shelf, or its new state. */
  async put(take: ShelvedTake): Promise<void> {
    const transaction = this.#database.transaction('takes', 'readwrite');
    transaction.objectStore('takes').put(take);
    await done(transaction);
  }

  /** Adds messages to a take. */
  async add(key: string, part: number, messages: readonly Message[]): Promise<void> {
    const transaction = this.#database.transaction('parts', 'readwrite');
    const record: Part = { key, part, messages };
    transaction.objectStore('parts').put(record);
    await done(transaction);
  }

  /** All takes, oldest first. */
  async takes(): Promise<readonly ShelvedTake[]> {
    const found: unknown[] = await answered(this.#database.transaction('takes').objectStore('takes').getAll());
    return found.filter(isTake).sort((a, b) => a.startedAt.localeCompare(b.startedAt));
  }

  /** Everything that was played in a take. */
  async messages(key: string): Promise<readonly Message[]> {
    const found: unknown[] = await answered(this.#database.transaction('parts').objectStore('parts').getAll(partsOf(key)));
    return found.filter(isPart).sort((a, b) => a.part - b.part).flatMap(({ messages }) => messages);
  }

  /** Takes a take off the shelf for good. */
  async drop(key: string): Promise<void> {
    const transaction = this.#database.transaction(['takes', 'parts'], 'readwrite');
    transaction.objectStore('takes').delete(key);
    transaction.objectStore('parts').delete(partsOf(key));
    await done(transaction);
  }
}

/** True for a take as it was put here. */
function isTake(found: unknown): found is ShelvedTake {
  return typeof found === 'object' && found !== null && 'key' in found && 'startedAt' in found && 'state' in found;
}

/** True for a part as it was put here. */
function isPart(found: unknown): found is Part {
  return typeof found === 'object' && found !== null && 'part' in found && 'messages' in found;
}

/** All parts of one take. */
function partsOf(key: string): IDBKeyRange {
  return IDBKeyRange.bound([key, 0], [key, Infinity]);
}

/** What a request gives. */
function answered<T>(request: IDBRequest<T>): Promise<T> {
  return new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error ?? new DOMException('the shelf did not answer'));
  });
}

/** The end of a transaction: what it wrote is kept. */
function done(transaction: IDBTransaction): Promise<void> {
  return new Promise((resolve, reject) => {
    transaction.oncomplete = () => resolve();
    transaction.onerror = () => reject(transaction.error ?? new DOMException('the shelf took nothing'));
    transaction.onabort = () => reject(transaction.error ?? new DOMException('the shelf took nothing'));
  });
}
