/*
 * The teacher's question: the finger is gone, but does the note still sound?
 *
 * Conventions: seconds from the start of the recording, one entry a note in the order of `Recording.notes`.
 * Method: a note ends with its key, or, where a pedal has it, with that pedal: the sustain pedal if it is down when the key
 *   comes up, the sostenuto pedal if the key was down when it was pressed (MIDI 1.0, controllers 64 and 66). A key struck again ends
 *   the sound it had.
 * Source: controller values of 64 and more are "on" (MIDI 1.0). On a pedal with a scale the dampers touch the strings before
 *   that: from 32 up the sound is shortened and not yet gone (our own rule; no figure for half pedal is published).
 * What it does not tell: how loud the note still is. The highest strings have no dampers and ring on in any case.
 */
import { firstIndex } from '../base/index.js';
import type { ControlPoint, Recording } from '../recording/index.js';

/** Controller value from which (>=) a pedal surely holds what it has: MIDI 1.0. */
export const PEDAL_HOLDS = 64;

/** Controller value from which (>=) the sustain pedal lets something ring on: half pedal. Our own rule: half of "on". */
export const PEDAL_LINGERS = 32;

/** A time during which a pedal is down; `toS` is exclusive. */
export interface Down {
  readonly fromS: number;
  readonly toS: number;
}

/**
 * When each note of a recording falls silent, seconds.
 * @param sustainFrom controller value from which the sustain pedal holds: `PEDAL_HOLDS`, or `PEDAL_LINGERS` to count half pedal as sound
 */
export function soundEnds(recording: Recording, sustainFrom: number): readonly number[] {
  const sustain = downTimes(recording.sustain, sustainFrom, recording.durationS);
  const sostenuto = downTimes(recording.sostenuto, PEDAL_HOLDS, recording.durationS);
  const nextOfKey = onsetsOfNext(recording);
  return recording.notes.map(({ onsetS, releaseS }, index) => {
    const caught = sostenuto[firstEndingAfter(sostenuto, onsetS)];
    const held = sustain[firstEndingAfter(sustain, releaseS)];
    const bySostenuto = caught !== undefined && caught.fromS >= onsetS && caught.fromS < releaseS ? caught.toS : releaseS;
    const bySustain = held !== undefined && held.fromS <= releaseS ? held.toS : releaseS;
    return Math.max(onsetS, Math.min(Math.max(bySostenuto, bySustain), nextOfKey[index] ?? Infinity));
  });
}

/** When a pedal was down (`from`: the controller value that counts), in order; one still down at the end lasts to `endS`. */
export function downTimes(points: readonly ControlPoint[], from: number, endS: number): readonly Down[] {
  const times: Down[] = [];
  let sinceS: number | null = null;
  for (const { timeS, value } of points) {
    if (value >= from) sinceS ??= timeS;
    else if (sinceS !== null) {
      times.push({ fromS: sinceS, toS: timeS });
      sinceS = null;
    }
  }
  if (sinceS !== null) times.push({ fromS: sinceS, toS: Math.max(sinceS, endS) });
  return times;
}

/** The first of these times that ends after a moment, by halving. */
function firstEndingAfter(times: readonly Down[], momentS: number): number {
  return firstIndex(times.length, (i) => (times[i]?.toS ?? Infinity) > momentS);
}

/** For each note, when its key was struck again; infinite where it was not. */
function onsetsOfNext({ notes }: Recording): readonly number[] {
  const next = new Map<number, number>();
  return notes.toReversed().map(({ pitch, onsetS }) => {
    const again = next.get(pitch) ?? Infinity;
    next.set(pitch, onsetS);
    return again;
  }).reverse();
}

/** The highest value of a pedal between two moments, the one in force at the first counted in; 0 before any. */
export function highestBetween(points: readonly ControlPoint[], fromS: number, toS: number): number {
  const first = firstIndex(points.length, (i) => (points[i]?.timeS ?? Infinity) > fromS);
  let highest = points[first - 1]?.value ?? 0;
  for (let i = first; i < points.length; i += 1) {
    const point = points[i];
    if (point === undefined || point.timeS >= toS) break;
    highest = Math.max(highest, point.value);
  }
  return highest;
}
