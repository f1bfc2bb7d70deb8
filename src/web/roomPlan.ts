import type { Pronoun } from '../store/index.js';

/** Who and what is in the demo room, format `barwise-room/1`. */
export interface RoomPlan {
  readonly pupils: readonly { readonly slug: string; readonly name: string; readonly pronoun: Pronoun | null; readonly born: number | null }[];
  readonly pieces: readonly { readonly slug: string; readonly title: string; readonly score: string }[];
  readonly recordings: readonly PlannedRecording[];
  /** What was sent and is no recording. */
  readonly unreadable: readonly PlannedRecording[];
  readonly lessons: readonly { readonly pupil: string; readonly day: number; readonly time: string }[];
  readonly comments: readonly PlannedComment[];
}

/** Something that the invented teacher wrote. */
export interface PlannedComment {
  /** Recording, by its file. */
  readonly file: string;
  /** Printed bars, which are their places too, since the demo pieces begin with an upbeat numbered 0; null for the whole. */
  readonly bars: readonly [number, number] | null;
  readonly text: string;
  /** Local time without a zone. */
  readonly writtenAt: string;
  readonly settled: boolean;
}

/** A recording of the demo room. */
export interface PlannedRecording {
  readonly pupil: string;
  readonly piece: string;
  /** Path within the folder. */
  readonly file: string;
  /** Local time without a zone. */
  readonly recordedAt: string;
}

/** Reads `room.json`. The file is our own, so a fault in it is our mistake: TypeError. */
export function readRoomPlan(json: string): RoomPlan {
  const plan: unknown = JSON.parse(json);
  return {
    pupils: listOf(plan, 'pupils').map((entry) => ({ slug: textOf(entry, 'slug'), name: textOf(entry, 'name'), pronoun: pronounOf(entry), born: bornOf(entry) })),
    pieces: listOf(plan, 'pieces').map((entry) => ({ slug: textOf(entry, 'slug'), title: textOf(entry, 'title'), score: textOf(entry, 'score') })),
    recordings: listOf(plan, 'recordings').map(recordingIn),
    unreadable: listOf(plan, 'unreadable').map(recordingIn),
    lessons: listOf(plan, 'lessons').map((entry) => ({ pupil: textOf(entry, 'pupil'), day: Number(valueOf(entry, 'day')), time: textOf(entry, 'time') })),
    comments: listOf(plan, 'comments').map((entry) => ({ file: textOf(entry, 'file'), bars: barsIn(entry), text: textOf(entry, 'text'), writtenAt: textOf(entry, 'writtenAt'), settled: valueOf(entry, 'settled') === true })),
  };
}

/** A recording of the plan. */
function recordingIn(entry: unknown): PlannedRecording {
  return { pupil: textOf(entry, 'pupil'), piece: textOf(entry, 'piece'), file: textOf(entry, 'file'), recordedAt: textOf(entry, 'recordedAt') };
}

/** First and last bar of a comment, or null. */
function barsIn(entry: unknown): readonly [number, number] | null {
  const bars = valueOf(entry, 'bars');
  return Array.isArray(bars) ? [Number(bars[0]), Number(bars[1])] : null;
}

/** A property of something that came from JSON, or undefined. */
function valueOf(entry: unknown, name: string): unknown {
  return typeof entry === 'object' && entry !== null ? Object.entries(entry).find(([key]) => key === name)?.[1] : undefined;
}

/** A list. */
function listOf(entry: unknown, name: string): readonly unknown[] {
  const value = valueOf(entry, name);
  if (!Array.isArray(value)) throw new TypeError(`room.json has no list of ${name}`);
  return value.map((item: unknown) => item);
}

/** A text. */
function textOf(entry: unknown, name: string): string {
  const value = valueOf(entry, name);
  if (typeof value !== 'string') throw new TypeError(`an entry of room.json has no ${name}`);
  return value;
}

/** A year of birth, where the plan says. */
function bornOf(entry: unknown): number | null {
  const value = valueOf(entry, 'born');
  return typeof value === 'number' ? value : null;
}

/** How a pupil is spoken of, where the plan says. */
function pronounOf(entry: unknown): Pronoun | null {
  const value = valueOf(entry, 'pronoun');
  return value === 'she' || value === 'he' || value === 'they' ? value : null;
}
