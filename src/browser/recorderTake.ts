/** One take while it is being played: messages go to the shelf as they come, one write at a time, none waiting for the next. */
import type { Message, Shelf, ShelvedTake } from './recorderShelf.js';

/** Upper half of the status byte: note off, note on, controller. */
const KEPT: ReadonlySet<number> = new Set([0x8, 0x9, 0xb]);
const NOTE_ON = 0x9;
const CONTROLLER = 0xb;

/** Controller of the right pedal. */
const SUSTAIN = 64;

/** What somebody at the keyboard wants to see. */
export interface TakeNews {
  readonly notes: number;
  /** Of the last stroke, 0-127; 0 before any. */
  readonly velocity: number;
  /** Of the right pedal, 0-127. */
  readonly pedal: number;
}

/** What a message tells by itself: a stroke's velocity, the pedal's value, or neither. */
export function readMessage(data: Uint8Array): { readonly stroke: number | null; readonly pedal: number | null; readonly kept: boolean } {
  const [status = 0, first = 0, second = 0] = data;
  const kind = status >> 4;
  return { stroke: kind === NOTE_ON && second > 0 ? second : null, pedal: kind === CONTROLLER && first === SUSTAIN ? second : null, kept: KEPT.has(kind) && data.length >= 3 };
}

/** A take under way. */
export class Take {
  readonly record: ShelvedTake;
  readonly #shelf: Shelf;
  readonly #startMs: number;
  #waiting: Message[] = [];
  #part = 0;
  #notes = 0;
  #writing: Promise<void> = Promise.resolve();
  #busy = false;

  /** @param startMs the moment of its start on the clock of the messages */
  constructor(shelf: Shelf, record: ShelvedTake, startMs: number) {
    this.#shelf = shelf;
    this.record = record;
    this.#startMs = startMs;
  }

  /** Notes struck so far. */
  get notes(): number {
    return this.#notes;
  }

  /** Takes a message. */
  hear(data: Uint8Array, timeMs: number): void {
    const { stroke, kept } = readMessage(data);
    if (!kept) return;
    const [status = 0, first = 0, second = 0] = data;
    if (stroke !== null) this.#notes += 1;
    this.#waiting.push([Math.max(0, Math.round((timeMs - this.#startMs) * 100) / 100), status, first, second]);
    if (!this.#busy) this.#writing = this.#write();
  }

  /** Resolves when everything that was heard is on the shelf. @throws DOMException where the shelf took it not */
  async settled(): Promise<void> {
    await this.#writing;
    if (this.#waiting.length > 0) await this.#write();
  }

  /** Writes what is there, and what came meanwhile. */
  async #write(): Promise<void> {
    this.#busy = true;
    try {
      while (this.#waiting.length > 0) {
        const messages = this.#waiting;
        this.#waiting = [];
        await this.#shelf.add(this.record.key, this.#part, messages);
        this.#part += 1;
      }
    } finally {
      this.#busy = false;
    }
  }
}
