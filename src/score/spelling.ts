/**
 * Spelling of bare MIDI keys. Method: the twelve keys are named by a window on the line of fifths around the key
 * signature. It does not follow modulations.
 */
import { spelledPitch } from './pitch.js';
import type { Pitch, Step } from './types.js';

/** Steps along the line of fifths, F first. */
const FIFTHS: readonly Step[] = ['F', 'C', 'G', 'D', 'A', 'E', 'B'];

/**
 * How far down the line of fifths from the key's tonic (in major) spellings reach: three steps down and eight up, so
 * that C major has E flat, B flat, F sharp, C sharp and G sharp. Common practice; a guess where music modulates.
 */
const REACH_DOWN = 3;

/** The likely spelling of a MIDI key under a key signature. */
export function likelySpelling(midi: number, fifths: number): Pitch {
  // C stands at 0 on the line of fifths; seven fifths make a semitone, so 7 × place gives the pitch class
  const lowest = fifths - REACH_DOWN;
  const places = Array.from({ length: 12 }, (_, i) => lowest + i);
  const place = places.find((candidate) => mod(7 * candidate - midi, 12) === 0) ?? 0;
  const step = FIFTHS[mod(place + 1, 7)] ?? 'C';
  const alter = Math.floor((place + 1) / 7);
  const natural = spelledPitch(step, alter, 0).midi;
  return spelledPitch(step, alter, Math.round((midi - natural) / 12));
}

/** Alteration that a key signature gives a step: sharps from F along the fifths, flats from B backwards. */
export function alterInKey(step: Step, fifths: number): number {
  const place = FIFTHS.indexOf(step);
  return Math.floor((fifths - place - 1) / 7) + 1;
}

/** Remainder that is never negative. */
function mod(value: number, by: number): number {
  return ((value % by) + by) % by;
}
