/*
 * The curve of a final ritardando that pleased listeners best, and how well a slowing follows it.
 *
 * Conventions: positions 0 to 1 from the start of the slowing to its last onset, in written time; tempo as a share of the tempo before it.
 * Method: v(x) = (1 + (vEnd^q - 1) x)^(1/q). The time to position x is its integral of 1/v, in closed form, so that onsets are compared,
 *   not tempos drawn from them. The end tempo follows from the whole duration alone, by halving.
 * Source: Friberg and Sundberg (1999): tempo squared or cubed falls evenly with written position (q = 2 or 3). The formula is recalled.
 */

/** What a slowing down to so much of the tempo takes, with its curvature. */
export interface RitardandoCurve {
  /** Tempo at the end, 0.5 for half the tempo before; above 1 for a quickening. */
  readonly endTempo: number;
  /** 2 and 3 were rated best. */
  readonly q: number;
}

/** Slowest and quickest end that is sought: a stop and a doubling. */
const LEAST_END = 0.02;
const MOST_END = 4;

/** Halvings: the end is found to one part in a billion. */
const HALVINGS = 40;

/** Nearer to 1 than this (<), the tempo does not change, and the closed form would divide by 0. */
const NO_CHANGE = 1e-9;

/** Tempo at a position. @param x 0-1 */
export function ritardandoTempo({ endTempo, q }: RitardandoCurve, x: number): number {
  return (1 + (endTempo ** q - 1) * x) ** (1 / q);
}

/** Time to a position, in units of what the whole would take at the tempo before. @param x 0-1 */
export function ritardandoTime({ endTempo, q }: RitardandoCurve, x: number): number {
  const fall = endTempo ** q - 1;
  if (Math.abs(fall) < NO_CHANGE) return x;
  const power = 1 - 1 / q;
  return ((1 + fall * x) ** power - 1) / (power * fall);
}

/** The end tempo at which the whole takes so many times what it would at the tempo before. @param q 2 or 3 */
export function endTempoFor(times: number, q: number): number {
  let low = LEAST_END;
  let high = MOST_END;
  for (let i = 0; i < HALVINGS; i += 1) {
    const middle = (low + high) / 2;
    if (ritardandoTime({ endTempo: middle, q }, 1) > times) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** A slowing held against the curve. */
export interface RitardandoFit extends RitardandoCurve {
  /** Largest distance of an onset from the curve, as a share of what the whole would take at the tempo before. */
  readonly off: number;
}

/** Onsets within a slowing: position, and time in units of what the whole would take at the tempo before. */
export interface RitardandoOnset {
  readonly x: number;
  readonly time: number;
}

/** The best of both curves for the onsets of a slowing. @param onsets in order, the last at position 1 */
export function fitRitardando(onsets: readonly RitardandoOnset[]): RitardandoFit | null {
  const whole = onsets.at(-1);
  if (whole === undefined || whole.x !== 1 || whole.time <= 0) return null;
  const [square, cube] = [2, 3].map((q): RitardandoFit => {
    const curve = { q, endTempo: endTempoFor(whole.time, q) };
    return { ...curve, off: onsets.reduce((most, { x, time }) => Math.max(most, Math.abs(time - ritardandoTime(curve, x))), 0) };
  });
  if (square === undefined || cube === undefined) return null;
  return square.off < cube.off ? square : cube;
}
