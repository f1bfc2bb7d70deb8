/** The record of a demo recording while it is being made. */
import type { Hand } from './noteIds.js';
import type { Sounding } from './sounding.js';

/** One key press, or a written note that was not played. */
export interface TakeNote {
  /** `ornament` is a stroke that an ornament sign adds to its note. */
  readonly status: 'matched' | 'missed' | 'added' | 'ornament';
  /** The written note, for an ornament's stroke the one with the sign; null for a key press that stands for none. */
  readonly written: Sounding | null;
  readonly hand: Hand;
  /** Where in the route: place of the leg, of the visit in the playing order; -1 before the music. */
  readonly leg: number;
  readonly visit: number;
  readonly barIndex: number;
  /** Divisions from the start of the bar. */
  readonly at: number;
  readonly pass: number;
  readonly attempt: number;
  /** Seconds. A missed note keeps the time at which it was due. */
  readonly onsetS: number;
  readonly releaseS: number;
  /** MIDI number played. */
  readonly pitch: number;
  /** 1-127. */
  readonly velocity: number;
  /** 0-127. */
  readonly releaseVelocity: number;
}

/** A pedal position from a moment on, 0-127. */
export interface PedalPoint {
  readonly timeS: number;
  readonly value: number;
}

/** A finished recording before it becomes a file. */
export interface Take {
  readonly notes: readonly TakeNote[];
  readonly sustain: readonly PedalPoint[];
}
