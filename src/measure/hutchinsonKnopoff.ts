/*
 * The teacher's question: how rough is what sounds, from clear (0) to as rough as two neighbouring sines (about 0.5)?
 *
 * Conventions: frequencies in Hz, amplitudes linear; the result does not depend on how loud the whole is.
 * Method: for each pair of partials a_i a_j g, summed and divided by the sum of a²; g = ((y / 0.25) e^(1 − y / 0.25))² with y the distance as a share of
 *   the critical bandwidth 1.72 f^0.65 at the mean frequency f, and 0 where y > 1.2.
 * Source: Hutchinson and Knopoff, The acoustic component of Western consonance (Interface 7, 1978), g as in Bigand, Parncutt and
 *   Lerdahl (1996); critical bandwidth after Plomp and Levelt (1965). Low thirds come out rougher than high ones, as they are.
 * What it does not tell: harmony. A dominant seventh is rougher than a triad and just as right.
 */
import type { Partial } from './partials.js';

/** Of the critical bandwidth, at which two sines are roughest (Plomp and Levelt 1965). */
const ROUGHEST = 0.25;

/** Beyond this distance (>), in critical bandwidths, nothing is rough. */
const FURTHEST = 1.2;

/** Critical bandwidth between two frequencies, Hz. */
export function criticalBandwidth(one: number, other: number): number {
  return 1.72 * ((one + other) / 2) ** 0.65;
}

/** Roughness of two sines, 0-1, by their distance in critical bandwidths. */
export function roughnessAt(bandwidths: number): number {
  if (bandwidths > FURTHEST) return 0;
  const y = bandwidths / ROUGHEST;
  return (y * Math.exp(1 - y)) ** 2;
}

/** What two partials add, before the sum is divided: amplitudes times roughness. */
export function roughPair(one: Partial, other: Partial): number {
  return one.amplitude * other.amplitude * roughnessAt(Math.abs(one.frequency - other.frequency) / criticalBandwidth(one.frequency, other.frequency));
}

/** Roughness of a sound; 0 where nothing sounds. */
export function hutchinsonKnopoff(partials: readonly Partial[]): number {
  const energy = partials.reduce((sum, { amplitude }) => sum + amplitude ** 2, 0);
  const rough = partials.reduce((sum, one, i) => sum + partials.slice(i + 1).reduce((inner, other) => inner + roughPair(one, other), 0), 0);
  return energy === 0 ? 0 : rough / energy;
}
