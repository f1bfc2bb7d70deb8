import type { Pronoun } from '../store/index.js';

/** Who and what is in the demo room, format `barwise-room/1`. */
export interface RoomPlan {
  readonly pupils: readonly { readonly slug: string; readonly name: string; readonly pronoun: Pronoun | null; readonly born: number | null }[];
  readonly pieces: readonly { readonly slug: string; readonly title: string; readonly score: string }[];
  readonly recordings: readonly PlannedRecording[];
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
    recordings: listOf(plan, 'recordings').map((entry) => ({
      pupil: textOf(entry, 'pupil'), piece: textOf(entry, 'piece'), file: textOf(entry, 'file'), recordedAt: textOf(entry, 'recordedAt'),
    })),
  };
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
