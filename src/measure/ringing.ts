/*
 * The teacher's question: which notes ring, for how long, and how loud are they still?
 *
 * Conventions: seconds; dB under the hardest stroke, so all levels are negative; one entry a note in the order of
 *   `Recording.notes`. A note's course is a line of straight pieces in dB over time, never rising.
 * Method: the level at the stroke follows from the velocity (velocityLevel.ts), the fading from the register (decay.ts). The
 *   damper falls when the key is up and neither the sostenuto holds it nor the sustain pedal is down; half pedal lets it
 *   touch the string in part, with the square of the contact (footCurve.ts). A key struck again ends the sound it had.
 * Source: part-pedalling makes three intervals, free, fast and slow again (Lehtonen, Askenfelt and Välimäki 2009): that is
 *   what a pedal curve gives here. The square is our own estimate.
 * What it does not tell: more than an estimate. Strings that sound along, the room and the instrument's own levels are left out.
 */
import { firstIndex } from '../base/index.js';
import type { RecordedNote, Recording } from '../recording/index.js';
import { damperRate, freeRate, KNEE_DB } from './decay.js';
import { contacts, type Contact } from './footCurve.js';
import { downTimes, PEDAL_HOLDS } from './soundEnds.js';
import { levelDbOf } from './velocityLevel.js';

/** Below this (<=) nothing is heard any more, dB: softer than the softest stroke by 20 dB. */
export const SILENT_DB = -60;

/** A corner of a note's course. */
export interface RingPoint {
  readonly timeS: number;
  readonly levelDb: number;
}

/** One note as it rings. */
export interface Ring {
  /** Place in `Recording.notes`. */
  readonly note: number;
  readonly pitch: number;
  readonly onsetS: number;
  /** When the finger, or the sostenuto pedal for it, let the damper go. */
  readonly letGoS: number;
  /** When its key was struck again; infinite where it was not. */
  readonly againS: number;
  /** In order of time, the stroke first; after the last it is silent. */
  readonly points: readonly RingPoint[];
}

/** How every note of a recording rings. */
export function ringsOf(recording: Recording): readonly Ring[] {
  const steps = contacts(recording.sustain);
  const again = nextStrokes(recording.notes);
  const caught = downTimes(recording.sostenuto, PEDAL_HOLDS, recording.durationS);
  return recording.notes.map((note) => {
    const letGoS = Math.max(note.releaseS, caught.find(({ fromS, toS }) => note.onsetS <= fromS && fromS < note.releaseS && toS > note.releaseS)?.toS ?? 0);
    const againS = again[note.index] ?? Infinity;
    return { note: note.index, pitch: note.pitch, onsetS: note.onsetS, letGoS, againS, points: courseOf(note, { letGoS, againS }, steps) };
  });
}

/** Level at a moment, dB; minus infinity before the stroke and once it is silent. */
export function levelAt(ring: Ring, timeS: number): number {
  const { points } = ring;
  return levelBefore(ring, firstIndex(points.length, (i) => (points[i]?.timeS ?? Infinity) > timeS), timeS);
}

/** Level at a moment whose next corner is known. */
function levelBefore({ points, againS }: Ring, next: number, timeS: number): number {
  const [from, to] = [points[next - 1], points[next]];
  if (from === undefined || timeS >= againS) return -Infinity;
  if (to === undefined) return from.levelDb > SILENT_DB && timeS === from.timeS ? from.levelDb : -Infinity;
  return from.levelDb + ((timeS - from.timeS) / (to.timeS - from.timeS)) * (to.levelDb - from.levelDb);
}

/** Tells what `levelAt` does at moments that never go back, without looking each of them up. */
export function levelFollower(ring: Ring): (timeS: number) => number {
  const { points } = ring;
  let next = 0;
  return (timeS) => {
    while ((points[next]?.timeS ?? Infinity) <= timeS) next += 1;
    return levelBefore(ring, next, timeS);
  };
}

/** Level that the note would have had if its damper had fallen for good at a moment (or with the key, where that came later). */
export function levelIfDamped(ring: Ring, damperS: number, timeS: number): number {
  return damping(ring, damperS)(timeS, levelAt(ring, timeS));
}

/** The same for one note and damper at many moments, from the level as it was played there. */
export function damping(ring: Ring, damperS: number): (timeS: number, playedDb: number) => number {
  const fallS = Math.max(damperS, ring.letGoS);
  const fromS = Math.max(fallS, ring.onsetS);
  const [fromDb, rate] = [levelAt(ring, fromS), damperRate(ring.pitch)];
  return (timeS, playedDb) => {
    if (timeS <= fallS) return playedDb;
    const level = fromDb - rate * (timeS - fromS);
    return level <= SILENT_DB ? -Infinity : Math.min(level, playedDb);
  };
}

/** When a note is no longer heard, seconds. */
export function silentFrom({ points, againS, onsetS }: Ring): number {
  return Math.min(againS, points.at(-1)?.timeS ?? onsetS);
}

/** The corners of one note's course. */
function courseOf({ onsetS, pitch, velocity }: RecordedNote, { letGoS, againS }: Pick<Ring, 'letGoS' | 'againS'>, steps: readonly Contact[]): readonly RingPoint[] {
  const strikeDb = levelDbOf(velocity);
  const points: RingPoint[] = [{ timeS: onsetS, levelDb: strikeDb }];
  let [timeS, levelDb] = [onsetS, strikeDb];
  let fast = true;
  let step = firstIndex(steps.length, (i) => (steps[i]?.timeS ?? Infinity) > letGoS) - 1;
  while (levelDb > SILENT_DB && timeS < againS) {
    const free = timeS < letGoS;
    const contact = free ? 0 : (steps[step]?.contact ?? 1);
    const rate = freeRate(pitch, fast ? 0 : KNEE_DB) + damperRate(pitch) * contact * contact;
    const untilS = free ? letGoS : (steps[step + 1]?.timeS ?? Infinity);
    const floorDb: number = fast ? Math.max(SILENT_DB, strikeDb - KNEE_DB) : SILENT_DB;
    const reachS: number = timeS + (levelDb - floorDb) / rate;
    const toS = Math.min(untilS, reachS, againS);
    levelDb = toS === reachS ? floorDb : levelDb - rate * (toS - timeS);
    fast = fast && toS !== reachS;
    timeS = toS;
    if (!free && toS === untilS) step += 1;
    points.push({ timeS, levelDb });
  }
  return points;
}

/** When each key was struck again. */
function nextStrokes(notes: readonly RecordedNote[]): readonly number[] {
  const next = new Map<number, number>();
  return notes.toReversed().map(({ pitch, onsetS }) => {
    const again = next.get(pitch) ?? Infinity;
    next.set(pitch, onsetS);
    return again > onsetS ? again : Infinity;
  }).reverse();
}
