/** Takes on their way to the room: tried again until it answers, in one page at a time. */
import type { Shelf, ShelvedTake } from './recorderShelf.js';

/** Pauses between tries, ms; the last one is repeated. */
const PAUSES_MS = [2000, 5000, 15_000, 60_000] as const;

/** What the room made of a take. */
export interface Outcome {
  readonly ok: boolean;
  readonly text: string;
  readonly href: string | null;
}

/** Who hears of the sending. */
export interface Listener {
  /** What became of a take; null where the room did not answer and it is tried again. */
  readonly told: (take: ShelvedTake, outcome: Outcome | null) => void;
  /** All that was wanted has had its turn, here or in another page of this browser. */
  readonly settled: () => void;
}

/** Sends what is wanted, now and whenever the connection is back. */
export class Sender {
  readonly #shelf: Shelf;
  readonly #listener: Listener;
  #tries = 0;
  #timer = 0;
  #turn: Promise<void> = Promise.resolve();

  /** @param listener hears of every try */
  constructor(shelf: Shelf, listener: Listener) {
    this.#shelf = shelf;
    this.#listener = listener;
    window.addEventListener('online', () => this.send());
  }

  /** Sends all that is wanted, one after another. */
  send(): void {
    window.clearTimeout(this.#timer);
    this.#turn = this.#turn.then(() => alone(() => this.#sendAll())).then(() => this.#listener.settled());
  }

  async #sendAll(): Promise<void> {
    const wanted = (await this.#shelf.takes()).filter(({ state }) => state === 'wanted');
    for (const take of wanted) {
      const outcome = await this.#sendOne(take);
      if (outcome?.ok === true) await this.#shelf.drop(take.key);
      // what the room refuses stays, and is not sent again by itself
      else if (outcome !== null) await this.#shelf.put({ ...take, state: 'stopped' });
      this.#listener.told(take, outcome);
      if (outcome === null) { this.#later(); return; }
    }
    this.#tries = 0;
  }

  /** One take; null where the room does not answer. */
  async #sendOne({ key, startedAt, pupil, newPupil, piece }: ShelvedTake): Promise<Outcome | null> {
    try {
      const body = JSON.stringify({ key, startedAt, pupil, newPupil, piece, messages: await this.#shelf.messages(key) });
      const response = await fetch('/record', { method: 'POST', body, headers: { 'Content-Type': 'application/json', Accept: 'application/json' } });
      const answer: unknown = await response.json();
      return isOutcome(answer) ? answer : null;
    } catch {
      return null;
    }
  }

  /** Tries again by and by. */
  #later(): void {
    const pause = PAUSES_MS[Math.min(this.#tries, PAUSES_MS.length - 1)] ?? 0;
    this.#tries += 1;
    this.#timer = window.setTimeout(() => this.send(), pause);
  }
}

/** Runs in one page of this browser at a time, where the browser can tell; the room files a take once in any case. */
async function alone(work: () => Promise<void>): Promise<void> {
  if (!('locks' in navigator)) return work();
  await navigator.locks.request('barwise-takes', work);
}

/** True for the room's answer to a take. */
function isOutcome(answer: unknown): answer is Outcome {
  return typeof answer === 'object' && answer !== null && 'ok' in answer && typeof answer.ok === 'boolean' && 'text' in answer && 'href' in answer;
}
