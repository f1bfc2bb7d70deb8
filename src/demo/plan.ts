/** What is planned for one demo recording: who plays, on what, and which faults. All of it is data. */
import type { Hand } from './noteIds.js';

/** How a player plays where nothing is planned: the human scatter of a good, an ordinary or a beginning pupil. */
export interface Player {
  readonly pupil: string;
  /** Tempo against the metronome mark, 1 as marked. */
  readonly tempo: number;
  /** Standard deviation of single onsets, ms. */
  readonly timingMs: number;
  /** Standard deviation of the tempo's slow wandering, share of the tempo. */
  readonly wander: number;
  /** Depth of the tempo arc over a phrase, share of the tempo. */
  readonly arc: number;
  /** Spread of a chord's notes, ms. */
  readonly spreadMs: number;
  /** How much the tune comes before the left hand, ms. */
  readonly leadMs: number;
  /** Standard deviation of key velocities, units. */
  readonly velocitySd: number;
  /** Overlap of legato notes, share of the time to the next onset; negative for small gaps. */
  readonly overlap: number;
  /** Key-down time of staccato notes, share of the time to the next onset. */
  readonly staccato: number;
  /** Tune above accompaniment, velocity units. */
  readonly voicing: number;
}

/** The instrument: what it can send. */
export interface Instrument {
  /** False: every key press is sent with velocity 64. */
  readonly touch: boolean;
  readonly pedal: 'continuous' | 'switch' | 'none';
}

/** Where a fault lies. Bars are printed numbers, both inclusive; null for pass or attempt means every one. */
export interface FaultPlace {
  readonly bars: readonly [first: string, last: string];
  readonly pass: number | null;
  readonly attempt: number | null;
  readonly hand: Hand | 'both';
  /** The fault in words, as a teacher would put it. */
  readonly what: string;
}

/** What is done to the playing, by aspect and kind. */
export type FaultAction =
  /** Stops `breakAt` divisions into the last bar, waits, and begins again at the first. */
  | { readonly aspect: 'route'; readonly kind: 'wentBack'; readonly breakAt: number; readonly pauseS: number }
  | { readonly aspect: 'route'; readonly kind: 'skipped' }
  | { readonly aspect: 'route'; readonly kind: 'repeatLeftOut' }
  /** Plays the bars with one hand first, at `tempo` of the player's own, before all that is planned else. */
  | { readonly aspect: 'route'; readonly kind: 'handAlone'; readonly tempo: number; readonly pauseS: number }
  /** Ends after the last bar. */
  | { readonly aspect: 'route'; readonly kind: 'sectionOnly' }
  /** Tries a few notes before the start. */
  | { readonly aspect: 'route'; readonly kind: 'noodling'; readonly pitches: readonly number[]; readonly pauseS: number }
  /** The written notes named sound `semitones` away. */
  | { readonly aspect: 'notes'; readonly kind: 'wrongNote' | 'misreadAccidental'; readonly notes: readonly string[]; readonly semitones: number }
  | { readonly aspect: 'notes'; readonly kind: 'missedNote'; readonly notes: readonly string[] }
  /** A key struck along with, or `delayMs` after, each note named. */
  | { readonly aspect: 'notes'; readonly kind: 'addedNote'; readonly notes: readonly string[]; readonly semitones: number; readonly delayMs: number }
  | { readonly aspect: 'notes'; readonly kind: 'octaveSlip'; readonly octaves: number }
  | { readonly aspect: 'pulse'; readonly kind: 'hesitation'; readonly pauseS: number }
  /** `factor` below 1 takes less time than the pulse asks. */
  | { readonly aspect: 'pulse'; readonly kind: 'rushed'; readonly factor: number }
  /** The player's own `wander` is large: nothing more is done. */
  | { readonly aspect: 'pulse'; readonly kind: 'unsteady' }
  | { readonly aspect: 'rhythm'; readonly kind: 'evenDots' }
  | { readonly aspect: 'rhythm'; readonly kind: 'handLate'; readonly lateMs: number }
  /** Every second semiquaver comes late by `share` of the time between two. */
  | { readonly aspect: 'rhythm'; readonly kind: 'unevenRuns'; readonly share: number }
  | { readonly aspect: 'tempo'; readonly kind: 'noRitardando' }
  /** The player's own `tempo` is far from the mark: nothing more is done. */
  | { readonly aspect: 'tempo'; readonly kind: 'slow' | 'fast' }
  /** Staccato notes, or notes under a slur, held for `ratio` of the time to the next onset of the hand. */
  | { readonly aspect: 'touch'; readonly kind: 'staccatoHeld' | 'slurDetached'; readonly ratio: number }
  | { readonly aspect: 'lengths'; readonly kind: 'cutShort'; readonly notes: readonly string[]; readonly ratio: number }
  /** The notes named are tied on into the next bar, and struck again there. */
  | { readonly aspect: 'lengths'; readonly kind: 'tieStruckAgain'; readonly notes: readonly string[] }
  /** The notes named are held on through the rest after them. */
  | { readonly aspect: 'lengths'; readonly kind: 'restFilled'; readonly notes: readonly string[] }
  /** The pedal is changed at each bar line where it should ring on. */
  | { readonly aspect: 'pedal'; readonly kind: 'lifted' }
  /** No change of pedal at the bars' marks. */
  | { readonly aspect: 'pedal'; readonly kind: 'blurred' }
  /** The bass key is up before the pedal is down. */
  | { readonly aspect: 'pedal'; readonly kind: 'bassNotCaught' }
  /** The foot is down again before the old sound is gone. */
  | { readonly aspect: 'pedal'; readonly kind: 'caught' }
  /** No pedal at all in these bars. */
  | { readonly aspect: 'pedal'; readonly kind: 'notUsed' }
  /** Only `keep` of the level's ups and downs is left. */
  | { readonly aspect: 'dynamics'; readonly kind: 'flat'; readonly keep: number }
  /** The notes named are louder by some velocity units. */
  | { readonly aspect: 'dynamics'; readonly kind: 'sticksOut'; readonly notes: readonly string[]; readonly by: number }
  /** Neither hairpins nor phrases are shaped: the level of one mark holds until the next. */
  | { readonly aspect: 'dynamics'; readonly kind: 'noHairpins' }
  | { readonly aspect: 'balance'; readonly kind: 'leftTooLoud'; readonly by: number };

/** One planned fault. */
export type Fault = FaultPlace & FaultAction;

/** One planned recording. */
export interface TakePlan {
  /** File name without its end. */
  readonly name: string;
  /** Folder of the piece. */
  readonly piece: string;
  readonly seed: number;
  readonly player: Player;
  readonly instrument: Instrument;
  /** Local date and time. */
  readonly recordedAt: string;
  /** What the recording is for. */
  readonly purpose: 'first reading' | 'building up' | 'polishing' | 'run-through';
  /** One plain sentence for the room's list. */
  readonly about: string;
  readonly faults: readonly Fault[];
}

/** The faults of one kind. */
export function faultsOf<K extends FaultAction['kind']>(faults: readonly Fault[], kind: K): readonly Extract<Fault, { kind: K }>[] {
  return faults.filter((fault): fault is Extract<Fault, { kind: K }> => fault.kind === kind);
}
