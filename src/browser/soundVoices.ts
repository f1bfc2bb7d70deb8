/**
 * From keys and dampers to voices: when each tone begins, how its level falls, when it is over. Plain numbers, worked out ahead of
 * all sounding, so that the same is heard live and rendered, and no damper ever clicks.
 */
import type { Playback, PlaybackKey } from '../sound/index.js';

/** One tone. Times are seconds of sounding time, from the beginning of the recording at the speed chosen. */
export interface Voice {
  readonly startS: number;
  readonly pitch: number;
  /** Level of the stroke, dB under the hardest. */
  readonly levelDb: number;
  /** How far down the soft pedal was, 0-1. */
  readonly soft: number;
  /** When the key comes up. */
  readonly releaseS: number;
  /** Level under that of the free string, dB, at each of these moments; straight lines between. The last one is silence. */
  readonly course: readonly CoursePoint[];
}

/** How much the dampers have taken from a tone. */
export interface CoursePoint {
  readonly timeS: number;
  /** 0 undamped, negative damped. */
  readonly db: number;
}

/** Level at which a damped tone is over, dB. */
const SILENT_DB = -60;

/** Time a damper needs for 40 dB: 0.3 s in the low bass, 0.1 s in the treble (common practice: what these need to clear); straight between. */
const CLEARS = { db: 40, low: { pitch: 33, seconds: 0.3 }, high: { pitch: 84, seconds: 0.1 } } as const;

/** From here up (>=), MIDI number, strings have no dampers (references: they end at about 88). */
const UNDAMPED_FROM = 89;

/** A key struck again takes over its string within this time, seconds. */
const RESTRUCK_S = 0.03;

/** Most tones at a time; beyond, the softest of those that were let go ends. */
export const MOST_VOICES = 72;

/** What a tone that has to make room takes to end, seconds. */
const YIELD_S = 0.03;

/**
 * The voices of a recording.
 * @param speed 1 as played, 0.5 half as fast: keys and feet take longer, strings and dampers do not
 */
export function voicesOf({ keys, dampers }: Playback, speed: number): readonly Voice[] {
  const steps = dampers.map(({ timeS, contact }) => ({ timeS: timeS / speed, contact }));
  const again = nextOfKey(keys);
  const voices = keys.map((key, i): Voice => {
    const startS = key.onsetS / speed;
    const released = { releaseS: Math.max(startS, key.releaseS / speed), pitch: key.pitch };
    return { startS, pitch: key.pitch, levelDb: key.levelDb, soft: key.soft, releaseS: released.releaseS, course: takenOver(damped(startS, released, steps), (again[i] ?? Infinity) / speed) };
  });
  return withinLimit(voices);
}

/** When each key is struck the next time. */
function nextOfKey(keys: readonly PlaybackKey[]): readonly number[] {
  const next = new Map<number, number>();
  return keys.toReversed().map(({ pitch, onsetS }) => {
    const again = next.get(pitch) ?? Infinity;
    next.set(pitch, onsetS);
    return again;
  }).reverse();
}

/** Decibels a second that a damper lying full on the string takes. */
function damperRate(pitch: number): number {
  const { low, high, db } = CLEARS;
  const share = Math.min(1, Math.max(0, (pitch - low.pitch) / (high.pitch - low.pitch)));
  return db / (low.seconds + share * (high.seconds - low.seconds));
}

/** A key that was let go, and its string. */
interface Released {
  readonly releaseS: number;
  readonly pitch: number;
}

/** What the dampers do to one tone: nothing while its key is down, then as much as they touch the string. */
function damped(startS: number, { releaseS, pitch }: Released, steps: readonly { readonly timeS: number; readonly contact: number }[]): readonly CoursePoint[] {
  const course: CoursePoint[] = [{ timeS: startS, db: 0 }];
  if (pitch >= UNDAMPED_FROM) return [...course, { timeS: Infinity, db: 0 }];
  const rate = damperRate(pitch);
  let at: CoursePoint = { timeS: releaseS, db: 0 };
  let place = firstAfter(steps, releaseS);
  while (at.db > SILENT_DB) {
    const contact = steps[place - 1]?.contact ?? 1;
    const untilS = steps[place]?.timeS ?? Infinity;
    const overS = contact === 0 ? Infinity : at.timeS + (at.db - SILENT_DB) / (rate * contact);
    course.push(at);
    if (Math.min(overS, untilS) === Infinity) return [...course, { timeS: Infinity, db: at.db }];
    at = overS <= untilS ? { timeS: overS, db: SILENT_DB } : { timeS: untilS, db: at.db - rate * contact * (untilS - at.timeS) };
    place += 1;
  }
  return [...course, at];
}

/** Place of the first step after a moment, by halving. */
function firstAfter(steps: readonly { readonly timeS: number }[], timeS: number): number {
  let [low, high] = [0, steps.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((steps[middle]?.timeS ?? Infinity) > timeS) high = middle;
    else low = middle + 1;
  }
  return low;
}

/** The course cut short where something else takes the string. */
function takenOver(course: readonly CoursePoint[], atS: number): readonly CoursePoint[] {
  if (overAt(course) <= atS) return course;
  const before = course.filter(({ timeS }) => timeS < atS);
  const db = dbAt(course, atS);
  return [...before, { timeS: atS, db }, { timeS: atS + RESTRUCK_S, db: SILENT_DB }];
}

/** What the dampers have taken from a tone by some moment, dB. */
export function dbAt(course: readonly CoursePoint[], timeS: number): number {
  const next = course.findIndex((point) => point.timeS > timeS);
  const [before, after] = [course[next - 1], course[next]];
  if (after === undefined) return course.at(-1)?.db ?? SILENT_DB;
  if (before === undefined) return after.db;
  if (after.timeS === Infinity) return before.db;
  return before.db + ((timeS - before.timeS) * (after.db - before.db)) / (after.timeS - before.timeS);
}

/** When a tone is over; infinite where only its string ends it. */
export function overAt(course: readonly CoursePoint[]): number {
  return course.at(-1)?.timeS ?? 0;
}

/** What a free string loses by itself, dB a second: a rough figure that only decides which tone yields. */
function fadingRate(pitch: number): number {
  return 5 * 2 ** ((pitch - 48) / 24);
}

/** No more than `MOST_VOICES` at a time: the softest yields to a new one. */
function withinLimit(voices: readonly Voice[]): readonly Voice[] {
  const kept = [...voices];
  const loudness = (i: number, timeS: number): number => {
    const voice = kept[i];
    return voice === undefined ? -Infinity : voice.levelDb + dbAt(voice.course, timeS) - fadingRate(voice.pitch) * (timeS - voice.startS);
  };
  let active: number[] = [];
  voices.forEach(({ startS }, i) => {
    active = active.filter((other) => overAt(kept[other]?.course ?? []) > startS && loudness(other, startS) > SILENT_DB);
    if (active.length >= MOST_VOICES) {
      const softest = active.reduce((a, b) => (loudness(b, startS) < loudness(a, startS) ? b : a));
      const voice = kept[softest];
      if (voice !== undefined) kept[softest] = { ...voice, course: [...voice.course.filter(({ timeS }) => timeS < startS), { timeS: startS, db: dbAt(voice.course, startS) }, { timeS: startS + YIELD_S, db: SILENT_DB }] };
      active = active.filter((other) => other !== softest);
    }
    active.push(i);
  });
  return kept;
}
