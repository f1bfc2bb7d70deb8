/** The records of sound: a recording as it could be, and what would change. Times are seconds from the start of the recording. */
import type { JudgeInput, Observation } from '../judge/index.js';
import type { Recording } from '../recording/index.js';

/** What one version changes; all else stays as it was played. */
export type VersionName = 'pedal' | 'pulse' | 'lengths' | 'balance' | 'dynamics' | 'notes' | 'printed';

/** What versions are made from. */
export interface SoundInput extends Pick<JudgeInput, 'score' | 'recording' | 'alignment' | 'analysis' | 'measures'> {
  /** What was found and not decided to be right as played: versions change what is remarked on and nothing else. */
  readonly observations: readonly Observation[];
}

/** A moment as it was played, and when the same moment comes in a version. */
export interface ClockPoint {
  readonly playedS: number;
  readonly versionS: number;
}

/** One thing that a version changes. */
export interface Change {
  readonly barIndex: number;
  /** When it was played, seconds. */
  readonly startS: number;
  /** What the change would do, as a clause: "the old C would stop ringing a quaver earlier". British words. */
  readonly text: string;
}

/** The pupil's playing with one thing changed. */
export interface Version {
  readonly name: VersionName;
  readonly recording: Recording;
  /** For each of its notes its place in the notes as played; null for one that was not played. */
  readonly from: readonly (number | null)[];
  /** In order of both times; between two points time runs evenly, before the first and after the last as it was played. Empty where no moment moves. */
  readonly clock: readonly ClockPoint[];
  /** In order of time; empty where there is nothing to change. */
  readonly changes: readonly Change[];
}
