/*
 * Question: does the music use a mode's own steps instead of those of plain major or minor?
 * Conventions: semitones above the tonic; durations in any one unit.
 * Method: a mode shows where its own step is used and the plain one hardly: minor without its raised leading note is natural
 *   minor, with a raised sixth besides Dorian, with a lowered second Phrygian; major with a lowered seventh is Mixolydian, with a raised
 *   fourth Lydian.
 * Source: the definitions of the modes; the share is our own rule.
 * What it does not tell: modes of passages too short to count.
 */
import { mod } from './pitchNames.js';
import type { KeyName, ModalColour } from './types.js';

/** How much (inclusive) of the mode's own step and the plain one together the plain step may have. */
const MOST_PLAIN_SHARE = 0.1;

/** Least part of all sounding time (inclusive) that the mode's own step must have: fewer are passing notes. */
const LEAST_OWN_SHARE = 0.02;

/** The colour of a key, from how long each pitch class sounds; null for plain major and minor. */
export function modalColour({ tonic, mode }: KeyName, durations: readonly number[]): ModalColour | null {
  const total = durations.reduce((sum, value) => sum + value, 0);
  const at = (semitones: number): number => durations[mod(tonic + semitones, 12)] ?? 0;
  const uses = (own: number, plain: number): boolean =>
    total > 0 && at(own) >= LEAST_OWN_SHARE * total && at(plain) <= MOST_PLAIN_SHARE * (at(own) + at(plain));
  if (mode === 'major') {
    if (uses(10, 11)) return 'Mixolydian';
    return uses(6, 5) ? 'Lydian' : null;
  }
  if (uses(1, 2)) return 'Phrygian';
  if (!uses(10, 11)) return null;
  return uses(9, 8) ? 'Dorian' : 'natural minor';
}
