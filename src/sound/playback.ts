/*
 * What is needed to sound a recording: keys with their levels, and the dampers over time.
 *
 * Conventions: seconds; levels in decibels under the hardest stroke. A key caught by the sostenuto pedal is up when that is. The soft pedal is told
 *   as it stood when the key was struck: on a real instrument it changes the stroke, not the sound that is there.
 * Source: levels and dampers by the same functions as the measures, so that what is heard is what was measured; sostenuto 66 and soft 67 by MIDI 1.0.
 * What it does not tell: how the pupil's own instrument sounds.
 */
import { contacts, downTimes, levelDbOf, PEDAL_HOLDS, type Contact } from '../measure/index.js';
import type { Recording } from '../recording/index.js';
import { pedalAt } from './footChanges.js';

/** One key to be sounded. */
export interface PlaybackKey {
  readonly onsetS: number;
  /** When its own damper falls: with the key, or with the sostenuto pedal that caught it. */
  readonly releaseS: number;
  readonly pitch: number;
  /** 0 for the hardest stroke, less for softer ones. */
  readonly levelDb: number;
  /** How far down the soft pedal was, 0-1. */
  readonly soft: number;
}

/** A recording made ready for sounding. */
export interface Playback {
  /** In order of time. */
  readonly keys: readonly PlaybackKey[];
  /** 1 where the dampers lie on the strings, 0 where they are clear; from this moment on. */
  readonly dampers: readonly Contact[];
  readonly durationS: number;
}

/** Full travel of a pedal, controller value. */
const FULL = 127;

/** Makes a recording ready for sounding. */
export function playbackOf(recording: Recording): Playback {
  const caught = downTimes(recording.sostenuto, PEDAL_HOLDS, recording.durationS);
  const keys = recording.notes.map(({ onsetS, releaseS, pitch, velocity }): PlaybackKey => {
    const held = caught.find(({ fromS, toS }) => onsetS <= fromS && fromS < releaseS && toS > releaseS);
    return { onsetS, releaseS: held?.toS ?? releaseS, pitch, levelDb: levelDbOf(velocity), soft: pedalAt(recording.soft, onsetS) / FULL };
  });
  // the first step stands at minus infinity, which no file can hold
  const dampers = contacts(recording.sustain).map(({ timeS, contact }) => ({ timeS: Math.max(0, timeS), contact }));
  return { keys, dampers, durationS: recording.durationS };
}
