import type { ClockPoint, Playback, ShownBar, ShownMoment, VersionName } from '../sound/index.js';

/** Which of the versions: as played, or with one thing changed. */
export type Heard = 'played' | VersionName;

/** What the room answers about one version. */
export interface Sounding {
  readonly as: Heard;
  readonly playback: Playback;
  readonly clock: readonly ClockPoint[];
  /** By how much it is turned down to match another recording, dB. */
  readonly gainDb: number;
  readonly changes: readonly { readonly barIndex: number; readonly startS: number; readonly text: string }[];
}

/** What the room answers about the recording as played: also where everything stands on the page. */
export interface SoundingPage extends Sounding {
  readonly moments: readonly ShownMoment[];
  readonly bars: readonly ShownBar[];
  readonly versions: readonly { readonly name: VersionName; readonly words: string }[];
  /** Other recordings of the piece by the same pupil. */
  readonly others: readonly { readonly id: number; readonly address: string; readonly when: string }[];
}
