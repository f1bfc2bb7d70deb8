import type { Measured } from '../base/index.js';
import type { PedalFacts } from './pedalTypes.js';
import type { PulseFacts } from './pulseTypes.js';
import type { HoldingFacts } from './holdingTypes.js';
import type { LevelFacts } from './levelTypes.js';
import type { RhythmFacts } from './rhythmTypes.js';

/** How far one played note stands from the local pulse. */
export interface OnsetDeviation {
  /** Place in `Alignment.pairs`. */
  readonly pair: number;
  /** Milliseconds, late positive; the note itself is left out of the pulse it is held against. */
  readonly deviationMs: Measured<number>;
}

/** Onsets of one hand in one bar, pass and attempt. */
export interface HandTiming {
  /** Notes with a measured deviation. */
  readonly notes: number;
  /** Median deviation, ms, late positive. */
  readonly medianMs: number;
  /** Spread: scaled median absolute deviation, ms. */
  readonly scatterMs: number;
}

/** What happened in one visit to one bar. */
export interface BarFacts {
  /** Place in `Score.order`. */
  readonly visitIndex: number;
  readonly barIndex: number;
  /** Printed number. */
  readonly number: string;
  readonly pass: number;
  readonly attempt: number;
  /** Place in `Alignment.route`. */
  readonly stretch: number;
  /** First and last onset of the visit, seconds. */
  readonly startS: number;
  readonly endS: number;
  readonly played: number;
  readonly wrong: number;
  readonly missed: number;
  readonly added: number;
  /** Tempo as played over the bar, crotchets a minute. */
  readonly tempo: Measured<number>;
  readonly right: Measured<HandTiming>;
  readonly left: Measured<HandTiming>;
}

/** All facts of one recording against one score. */
export interface Measures {
  readonly onsets: readonly OnsetDeviation[];
  /** In time order: one entry a bar, pass and attempt. */
  readonly bars: readonly BarFacts[];
  /** Pulse and tempo. */
  readonly pulse: PulseFacts;
  /** Lengths, rests, ties and touch. */
  readonly holding: HoldingFacts;
  /** Onsets against one another and against what is written. */
  readonly rhythm: RhythmFacts;
  /** Loud and soft: dynamics and balance. */
  readonly levels: Measured<LevelFacts>;
  /** The foot against the harmony, and what the ear gets of it. */
  readonly pedal: PedalFacts;
}
