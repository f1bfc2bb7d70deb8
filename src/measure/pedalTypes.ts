/** The records of the pedal: what the foot did, what rang on under it, and what the ear got of that. Times are seconds. */
import type { Measured } from '../base/index.js';
import type { FootDown } from './footCurve.js';

/**
 * What the foot did around a change: `up` all along, `held` down all along, `changed` lifted and pressed again, `lifted` and
 * not pressed again, `pressed` from up to down.
 */
export type FootMove = 'up' | 'held' | 'changed' | 'lifted' | 'pressed';

/** A note of the old harmony that the pedal carried into the new one. */
export interface CarriedNote {
  /** Place in `Recording.notes`. */
  readonly note: number;
  /** Place in `Score.notes`; null where no written note was told for it. */
  readonly noteIndex: number | null;
  readonly pitch: number;
  /** How loud it is against all of the new sound, dB, where that begins and a clean change would have it gone. */
  readonly againstNewDb: number;
  /** How long it is heard in the new harmony beyond what a clean change leaves of it, seconds. */
  readonly lastsS: number;
  /** 0-1: how it stands to the new notes: 1 a semitone, 0 one of them. */
  readonly clash: number;
}

/** Old and new sound at one moment after a change. */
export interface OldAndNew {
  /** Seconds after the new sound began. */
  readonly atS: number;
  /** Levels, dB under the hardest stroke; null for silence. */
  readonly oldDb: number | null;
  readonly newDb: number | null;
}

/** Where the blur of a change comes from: before the foot was lifted (or where it was not), or caught by the new press. */
export interface BlurParts {
  readonly heldOver: number;
  readonly caught: number;
}

/** A bass note and the foot. */
export interface BassCatch {
  /** Place in `Recording.notes`. */
  readonly note: number;
  readonly noteIndex: number;
  /** When its key came up, seconds after the change. */
  readonly keyUpS: number;
  /** How long it is gone before the harmony ends (or it is struck again), seconds. */
  readonly goneS: number;
  /** True where its hand has to leave it while the harmony goes on: only a pedal can keep it. */
  readonly mustBeLeft: boolean;
}

/** What of old sound jars with new, and how much. */
export interface Blur {
  /** Foreign to the new harmony and carried over by the foot, the worst first. */
  readonly carried: readonly CarriedNote[];
  /** How long any of it is heard beyond what a clean change leaves, seconds. */
  readonly overlapS: number;
  /** 0-1: how much of a blur the ear gets, against a clean change. */
  readonly blur: number;
  readonly blurParts: BlurParts;
  /** Mean roughness (Hutchinson and Knopoff) while the old is heard, as played and with a clean change; null where nothing is. */
  readonly roughness: { readonly played: number; readonly clean: number } | null;
  /** About every tenth of a second while old sound is heard; empty where none is. */
  readonly course: readonly OldAndNew[];
}

/** One change of harmony, or of a marked pedal: where it is written, and when it sounded. */
export interface ChangeMoment {
  /** Place in `Alignment.route`. */
  readonly stretch: number;
  readonly visitIndex: number;
  /** Unfolded ticks of the change and of the next. */
  readonly tick: number;
  readonly untilTick: number;
  /** The same moment along the printed bars. */
  readonly writtenTick: number;
  /** Place in `Analysis.harmonies`; null where only a pedal mark stands here. */
  readonly harmony: number | null;
  /** 0-1: how sure both harmonies are; 0 at the first, and where only a mark stands. */
  readonly certainty: number;
  /** When the new harmony began to sound, and when the next did. */
  readonly soundS: number;
  readonly untilS: number;
}

/** One change as the pedal took it. */
export interface PedalChange extends Blur, ChangeMoment {
  readonly foot: FootMove;
  /** When the foot went up and down again, seconds after the new sound (before it negative); null where it did not. */
  readonly liftS: number | null;
  readonly pressS: number | null;
  /** Silence before the new sound where the notes are written without a rest and the pedal had carried the old ones, seconds; 0 without. */
  readonly gapS: number;
  /** Lowest note of the new harmony; null where it is not low, or was not played. */
  readonly bass: BassCatch | null;
}

/** Notes foreign to their harmony that ring on into it: a line that smears, a passing chord that is not cleared. */
export interface PedalSmear extends Blur {
  readonly stretch: number;
  /** Of the bar in which the foreign notes ring on: the harmony may have begun before it. */
  readonly visitIndex: number;
  /** Unfolded ticks of the harmony's note that follows the foreign ones. */
  readonly tick: number;
  /** The same moment along the printed bars. */
  readonly writtenTick: number;
  /** Place in `Analysis.harmonies`. */
  readonly harmony: number;
  /** When that note was struck, and when the next harmony begins. */
  readonly soundS: number;
  readonly untilS: number;
}

/** A lift that took ringing notes away. */
export interface PedalCut {
  readonly liftS: number;
  /** When the foot went down again; null where it did not. */
  readonly pressS: number | null;
  /** Places in `Recording.notes`. */
  readonly notes: readonly number[];
}

/** How the foot goes about it in the whole recording. */
export interface PedalHabits {
  /** Share of the music's time that the foot is down, 0-1. */
  readonly downShare: number;
  readonly presses: number;
  /** Changes of harmony that were reached with the foot down, and how many of them with a lift. */
  readonly reachedDown: number;
  readonly lifted: number;
  /** Middle time from the new sound to the lift and to the press of a change, seconds. */
  readonly liftLagS: Measured<number>;
  readonly pressLagS: Measured<number>;
  /** Share of the presses at a change that came together with the chord, 0-1. */
  readonly withTheChord: Measured<number>;
  /** Times at which the foot moved much faster than the music, `toS` exclusive. */
  readonly flutters: readonly { readonly fromS: number; readonly toS: number; readonly presses: number }[];
  /** Share of the time down that the pedal was only part of the way, 0-1; not measured on a switch. */
  readonly halfShare: Measured<number>;
  /** Share of the music's time with the soft pedal. */
  readonly softShare: number;
  /** How often the sostenuto pedal was used. */
  readonly sostenutoPresses: number;
}

/** One visit to a bar, or to the part of it that words on a pedal hold for. */
export interface WordedBar {
  /** The sustain pedal; the soft pedal down; the soft pedal up. */
  readonly asks: 'pedal' | 'soft' | 'full';
  /** As printed. */
  readonly text: string;
  /** Written ticks of the words. */
  readonly sinceTick: number;
  readonly stretch: number;
  readonly visitIndex: number;
  readonly fromS: number;
  readonly toS: number;
  /** Highest value of the sustain pedal in it, 0-127. */
  readonly depth: number;
  /** Share of its time with the soft pedal, 0-1. */
  readonly softShare: number;
}

/** One visit to a bar. */
export interface BarPedal {
  /** Share of its time that the foot is down, 0-1. */
  readonly downShare: number;
  /** Worst blur of the changes in it, 0-1. */
  readonly blur: number;
}

/** All that is measured of the pedal. */
export interface PedalFacts {
  /** When the foot was down. */
  readonly downs: readonly FootDown[];
  /** In order of time. */
  readonly changes: readonly PedalChange[];
  /** In order of time; only those of which something is heard. */
  readonly smears: readonly PedalSmear[];
  /** In order of time. */
  readonly cuts: readonly PedalCut[];
  readonly habits: PedalHabits;
  /** Bars under words that ask for a pedal: by what they ask, then in order of time. */
  readonly words: readonly WordedBar[];
  /** Parallel to `Measures.bars`. */
  readonly bars: readonly BarPedal[];
}
