/*
 * The teacher's question: how loud is a stroke against another one?
 *
 * Conventions: decibels under the hardest stroke (velocity 127 is 0), so all are negative; velocity 1-127.
 * Method: amplitude = (m v + b)², with b = 127 / (126 √r) − 1/126, m = (1 − b) / 127, r = 10^(R/20), R the instrument's
 *   dynamic range in decibels.
 * Source: Dannenberg, The interpretation of MIDI velocity (ICMC 2006). Single notes of a grand span 30-40 dB from pp to ff
 *   (trade texts), so R is 40.
 * What it does not tell: how loud the instrument was. Velocity curves differ by more than 60 dB (same source), so levels
 *   are compared within one recording only.
 */

/** Dynamic range taken where nothing is known of the instrument, dB. */
export const RANGE_DB = 40;

/** Level of a stroke, dB under velocity 127. */
export function levelDbOf(velocity: number, rangeDb = RANGE_DB): number {
  const root = Math.sqrt(10 ** (rangeDb / 20));
  const b = 127 / (126 * root) - 1 / 126;
  return 40 * Math.log10(((1 - b) / 127) * velocity + b);
}

/** Energy of a level, 1 at 0 dB, 0 for minus infinity: 10^(level / 10), by way of e, which is several times quicker. */
export function energyOf(levelDb: number): number {
  return Math.exp((Math.LN10 / 10) * levelDb);
}

/** Level of several sounds together: energies added. */
export function togetherDb(levelsDb: readonly number[]): number {
  return 10 * Math.log10(levelsDb.reduce((sum, level) => sum + energyOf(level), 0));
}
