/**
 * Whether the sustain pedal is wired the wrong way round: some pedals close their contact where others open it, and an
 * instrument that was not told sends "down" for a foot that is off.
 */
import type { KeyPress } from './pairNotes.js';
import type { ControlPoint } from './types.js';

/** Controller value from which (>=) the pedal is on: MIDI 1.0. */
const DOWN = 64;

/** Values up to this (<=) are a switch that is up, or the end of a continuous movement. */
const REST = 3;

/** A lift between two chords is shorter (<) than this, seconds: changes of pedal are quick, holding it is slow (common practice). */
const SHORT_S = 0.5;

/** So many short times "down" (>=), and so many times as many (>=) as short times "up", are lifts told the wrong way round. */
const SHORT_LEAST = 3;
const SHORT_TIMES = 2;

/** The foot leaves the pedal no earlier than this before the last key comes up, seconds: hands and foot off together. */
const LEAVES_S = 0.3;

/**
 * True where all of it speaks for a pedal the wrong way round: it begins at rest "down", is left "down" when all is over, and is
 * "down" for short moments between long ones "up". A pedal that is merely left down at the end was pressed before the last key came up.
 * @param sustain as sent, in order of time
 */
export function isInverted(sustain: readonly ControlPoint[], presses: readonly KeyPress[]): boolean {
  const [first, last] = [sustain[0], sustain.at(-1)];
  if (first === undefined || last === undefined || last.value < DOWN) return false;
  const beginsDown = first.value >= DOWN ? sustain.some(({ value }, i) => i > 0 && value > REST && value < first.value) && first.value < 127 : first.value <= REST;
  const moves = sustain.filter(({ value }, i) => i === 0 || (value >= DOWN) !== ((sustain[i - 1]?.value ?? 0) >= DOWN));
  const lastReleaseS = presses.reduce((latest, { releaseS }) => Math.max(latest, releaseS), 0);
  const leaves = (moves.at(-1)?.timeS ?? 0) >= lastReleaseS - LEAVES_S;
  const short = moves.slice(0, -1).filter(({ timeS }, i) => (moves[i + 1]?.timeS ?? Infinity) - timeS < SHORT_S);
  const downs = short.filter(({ value }) => value >= DOWN).length;
  return beginsDown && leaves && downs >= SHORT_LEAST && downs >= SHORT_TIMES * (short.length - downs);
}

/** The same pedal the right way round. */
export function turnedRound(sustain: readonly ControlPoint[]): readonly ControlPoint[] {
  return sustain.map(({ timeS, value }) => ({ timeS, value: 127 - value }));
}
