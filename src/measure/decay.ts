/*
 * The teacher's question: how fast does a struck string fade, free and under its damper?
 *
 * Conventions: dB a second, MIDI numbers (60 is middle C).
 * Method: free, a string fades in two stages: first quickly, then, once it has lost `KNEE_DB`, more slowly. The first rate grows evenly (by ratio)
 *   from the lowest key to the highest. Loudness does not change it. Under a damper it falls by `CLEAR_DB` in the time that
 *   teachers allow the register to clear. The highest strings have no dampers.
 * Source: two stages, level without effect: Cheng, Dixon and Mauch 2015. First rates, order of magnitude, from memory of Fletcher and
 *   Rossing: bass a few dB/s, middle 5-15, top octave 50 and more. Clearing: low bass 0.2-0.3 s, treble 0.1 s (teachers' common
 *   practice). Dampers end near MIDI 88, on some pianos at 94 (a piano technician's page). Knee and second rate: our own estimate.
 * What it does not tell: one instrument's truth. All of it is an estimate, the same for every recording; a digital piano may hold longer.
 */

/** First rates at the ends of the keyboard, dB/s. */
const FIRST_RATE = { lowest: 2.5, highest: 60 } as const;

/** The keyboard's ends, MIDI numbers. */
const KEYBOARD = { lowest: 21, highest: 108 } as const;

/** After so much, dB, the slow stage begins. */
export const KNEE_DB = 12;

/** The slow stage fades at this share of the first rate. */
export const SLOW_SHARE = 1 / 3;

/** A damped string counts as cleared after so much, dB: what is left is a thirtieth. */
export const CLEAR_DB = 30;

/** Seconds until cleared, and the keys at and beyond which they hold; between them evenly. */
const CLEARING = { low: { midi: 24, s: 0.3 }, high: { midi: 72, s: 0.1 } } as const;

/** From this key on (>=) some pianos have no dampers: what rings there, rings whatever the foot does. */
export const UNDAMPED_FROM = 89;

/** dB/s of the first stage. */
export function firstRate(midi: number): number {
  const share = (midi - KEYBOARD.lowest) / (KEYBOARD.highest - KEYBOARD.lowest);
  return FIRST_RATE.lowest * (FIRST_RATE.highest / FIRST_RATE.lowest) ** share;
}

/** dB/s of free decay after so many dB were lost. */
export function freeRate(midi: number, lostDb: number): number {
  return firstRate(midi) * (lostDb < KNEE_DB ? 1 : SLOW_SHARE);
}

/** Seconds that a damper needs to clear this string. */
export function clearingS(midi: number): number {
  const { low, high } = CLEARING;
  const share = Math.min(1, Math.max(0, (midi - low.midi) / (high.midi - low.midi)));
  return low.s + share * (high.s - low.s);
}

/** dB/s under a damper that lies on the string, on top of free decay; 0 where no damper is. */
export function damperRate(midi: number): number {
  return midi >= UNDAMPED_FROM ? 0 : CLEAR_DB / clearingS(midi);
}
