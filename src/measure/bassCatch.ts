/*
 * The teacher's question: was the bass caught by the pedal, or lost before the foot was down?
 *
 * Conventions: seconds after the new sound.
 * Method: the lowest note struck with the harmony, if it lies in the bass. It must be left where its hand goes out of reach while the
 *   harmony goes on. It is gone once it has faded by `GONE_DB` or is damped; struck again, there or an octave lower, it is
 *   there again.
 * Source: a ninth is what an adult's hand holds; basses that must be left are kept by the pedal (teachers' common practice).
 * What it does not tell: whether anybody asked for the pedal.
 */
import type { ChangePoint } from './changePoints.js';
import type { OldNew, RingingNote } from './oldAndNew.js';
import type { BassCatch } from './pedalTypes.js';
import { levelAt, silentFrom } from './ringing.js';

/** Basses lie up to this: the G below middle C. MIDI number, inclusive. */
const HIGHEST_BASS = 55;

/** A note further (>) above the bass is out of reach for its hand, semitones. */
const REACH = 14;

/** After so much fading (>=) a bass no longer carries, dB. Our own rule: as a damped string counts as cleared. */
const GONE_DB = 30;

/** The bass of a new harmony; null where there is none. */
export function bassCatch({ soundS, untilS, tick }: ChangePoint, { fresh }: OldNew): BassCatch | null {
  const first = fresh.filter((note) => note.tick === tick && !note.grace);
  const bass = first.reduce<RingingNote | null>((low, note) => (low === null || note.ring.pitch < low.ring.pitch ? note : low), null);
  if (bass === null || bass.noteIndex === null || bass.ring.pitch > HIGHEST_BASS) return null;
  const { ring, hand, endTick } = bass;
  const leaves = fresh.some((note) => note.hand === hand && note.tick !== null && endTick !== null && note.tick >= endTick && note.ring.pitch - ring.pitch > REACH);
  const again = fresh.find((note) => note !== bass && note.ring.pitch % 12 === ring.pitch % 12 && note.ring.pitch <= ring.pitch && note.onsetS > ring.letGoS);
  const goneS = Math.max(0, Math.min(untilS, again?.onsetS ?? Infinity) - goneAt(bass));
  return { note: bass.note, noteIndex: bass.noteIndex, keyUpS: ring.letGoS - soundS, goneS, mustBeLeft: leaves };
}

/** When a note has faded away. */
function goneAt({ ring }: RingingNote): number {
  const limit = levelAt(ring, ring.onsetS) - GONE_DB;
  const point = ring.points.find(({ levelDb }) => levelDb <= limit);
  const before = point === undefined ? undefined : ring.points[ring.points.indexOf(point) - 1];
  if (point === undefined || before === undefined) return silentFrom(ring);
  return before.timeS + ((before.levelDb - limit) / (before.levelDb - point.levelDb)) * (point.timeS - before.timeS);
}
