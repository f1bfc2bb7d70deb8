/*
 * The teacher's question: how much do these tones beat against one another?
 *
 * Conventions: frequencies in Hz, amplitudes linear; a plain sum over pairs, without a unit of its own: compare, do not read off.
 * Method: for each pair of partials d = a · 5 (e^(−3.51 s Δf) − e^(−5.75 s Δf)), s = 0.24 / (0.0207 f + 18.96) with f the lower
 *   frequency, and a the smaller amplitude.
 * Source: Sethares, Local consonance and the relationship between timbre and scale (JASA 94, 1993), in the later form of his own
 *   program (factors 5, smaller amplitude); the curve is fitted to Plomp and Levelt (JASA 38, 1965).
 * What it does not tell: loudness, masking, and whether a dissonance is wanted.
 */
import type { Partial } from './partials.js';

/** The fit's constants: where the curve is widest, how it narrows with register, and its two slopes. */
const FIT = { widest: 0.24, perHz: 0.0207, offset: 18.96, slow: 3.51, fast: 5.75, scale: 5 } as const;

/** Roughness of two partials. */
export function setharesPair(one: Partial, other: Partial): number {
  const s = FIT.widest / (FIT.perHz * Math.min(one.frequency, other.frequency) + FIT.offset);
  const apart = s * Math.abs(one.frequency - other.frequency);
  return Math.min(one.amplitude, other.amplitude) * FIT.scale * (Math.exp(-FIT.slow * apart) - Math.exp(-FIT.fast * apart));
}

/** Roughness of a sound: all its pairs, each once. */
export function sethares(partials: readonly Partial[]): number {
  return partials.reduce((sum, one, i) => sum + partials.slice(i + 1).reduce((inner, other) => inner + setharesPair(one, other), 0), 0);
}
