import type { Measured } from '../base/index.js';

/** How long one written note lasted: in the finger, in the ear, and on paper by the pulse as it was played around there. */
export interface NoteLength {
  /** From its onset to the moment at which its written end was due, seconds. */
  readonly writtenS: number;
  /** From its onset until the key came up, seconds. */
  readonly keyS: number;
  /** From its onset until it fell silent: key, sustain pedal and sostenuto together, seconds. Never less than `keyS`, but where the key was struck again. */
  readonly soundS: number;
}

/** How one note was joined to the next of its voice. */
export interface NoteJoin {
  /** The first note of the next chord of this voice: place in `Alignment.pairs`. */
  readonly next: number;
  /** From this onset to the next, seconds. */
  readonly intervalS: number;
  /** Key overlap time, seconds: release of this note minus onset of the next, positive where they overlap. */
  readonly overlapS: number;
  /** True where the next chord strikes the same key again, so that the key must rise first. */
  readonly repeated: boolean;
  /** How far down the sustain pedal went between this release and the next onset, 0-127: the highest value. */
  readonly pedal: number;
}

/** What one paired note's fingers did. */
export interface NoteHolding {
  /** Place in `Alignment.pairs`. */
  readonly pair: number;
  readonly length: Measured<NoteLength>;
  readonly join: Measured<NoteJoin>;
}

/** A written silence of one stave or of all of them, as it was played. */
export interface SilenceFacts {
  /** Place in `Alignment.route`. */
  readonly stretch: number;
  /** Stave that rests, from 1; null where all staves rest together (a general rest). */
  readonly staff: number | null;
  /** Unfolded ticks. */
  readonly fromTick: number;
  readonly toTick: number;
  /** When it should begin and when it ended (the next onset), seconds. */
  readonly fromS: number;
  readonly toS: number;
  /** How much of it a key of the resting staves was still down, seconds. */
  readonly heldS: number;
  /** How much of it something could still be heard, seconds. */
  readonly soundS: number;
  /** The pair whose key stayed down longest before it: place in `Alignment.pairs`. */
  readonly lastPair: number;
  /** How far down the sustain pedal went during the silence: the highest value in its middle half, 0-127. */
  readonly pedal: number;
}

/** A tied note that was struck again. */
export interface RestruckTie {
  /** The pair that began the sound: place in `Alignment.pairs`. */
  readonly pair: number;
  /** The press that struck it again: place in `Recording.notes`. */
  readonly note: number;
  /** The tied note at which it was struck again: place in `Score.notes`. */
  readonly tied: number;
}

/** One hand in one visit to a bar; shares of what is written, 0 and up. */
export interface HandHolding {
  /** Median share of the written length that the key was down, unmarked and slurred notes alike. */
  readonly keyShare: Measured<number>;
  /** The same for the sound. */
  readonly soundShare: Measured<number>;
  /** Share of the written joins under slurs that were joined. */
  readonly joined: Measured<number>;
  /** Median share of the written length that the key was down, of notes with dots. */
  readonly dots: Measured<number>;
  /** Greatest share of a written rest that a key stayed down. */
  readonly restHeld: Measured<number>;
}

/** One visit to a bar. */
export interface BarHolding {
  readonly right: HandHolding;
  readonly left: HandHolding;
}

/** Lengths and touch of one recording. */
export interface HoldingFacts {
  /** One entry a pair, in the order of `Alignment.pairs`. */
  readonly notes: readonly NoteHolding[];
  /** In order of time. */
  readonly silences: readonly SilenceFacts[];
  readonly restruck: readonly RestruckTie[];
  /** Parallel to `Measures.bars`. */
  readonly bars: readonly BarHolding[];
}
