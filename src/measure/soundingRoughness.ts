/*
 * The teacher's question: how rough is a handful of sounding notes, each at its level?
 *
 * Conventions: levels in dB on one scale; the measure is that of hutchinsonKnopoff.ts on the notes' harmonics, to the digit.
 * Method: the measure's sum is one of pairs of notes weighed by their amplitudes, so each pair of keys is worked out once and
 *   kept; the pairs of a handful are laid out once, and after that a moment costs one multiplication a pair.
 * Source: Hutchinson and Knopoff (1978); the rearrangement is our own.
 * What it does not tell: what hutchinsonKnopoff.ts does not.
 */
import { roughPair } from './hutchinsonKnopoff.js';
import { partialsOf, type Partial } from './partials.js';

/** Roughness of a handful of notes at their amplitudes (linear, 0 for silence), in the order of their pitches. */
export type RoughnessOf = (amplitudes: ArrayLike<number>) => number;

/** Lays out a handful of notes, MIDI numbers. */
export type RoughnessTeller = (pitches: readonly number[]) => RoughnessOf;

/** MIDI numbers run up to this, exclusive. */
const KEYS = 128;

/** A teller with a table of its own, filled as keys come up. */
export function roughnessTeller(): RoughnessTeller {
  const spectra = Array.from({ length: KEYS }, (_, midi) => partialsOf(midi));
  const energy = energyOf(spectra[0] ?? []);
  const table = new Float64Array(KEYS * KEYS).fill(-1);
  const between = (one: number, other: number): number => {
    const place = Math.min(one, other) * KEYS + Math.max(one, other);
    const known = table[place] ?? -1;
    if (known >= 0) return known;
    const value = betweenNotes(spectra[one] ?? [], spectra[other] ?? [], one === other);
    table[place] = value;
    return value;
  };
  return (pitches) => {
    const count = pitches.length;
    const pairs = new Float64Array(count * count);
    for (let i = 0; i < count; i += 1) {
      for (let j = i; j < count; j += 1) pairs[i * count + j] = between(pitches[i] ?? 0, pitches[j] ?? 0);
    }
    return (amplitudes) => quotient(pairs, amplitudes, energy);
  };
}

/** The measure's quotient over the notes that sound; `pairs` row by row, each with itself and those after it. */
function quotient(pairs: Float64Array, amplitudes: ArrayLike<number>, energy: number): number {
  const count = amplitudes.length;
  let [rough, total] = [0, 0];
  for (let i = 0; i < count; i += 1) {
    const amplitude = amplitudes[i] ?? 0;
    if (amplitude === 0) continue;
    total += energy * amplitude * amplitude;
    rough += (pairs[i * count + i] ?? 0) * amplitude * amplitude;
    for (let j = i + 1; j < count; j += 1) rough += (pairs[i * count + j] ?? 0) * amplitude * (amplitudes[j] ?? 0);
  }
  return total === 0 ? 0 : rough / total;
}

/** All pairs of partials between two notes, or within one. */
function betweenNotes(one: readonly Partial[], other: readonly Partial[], same: boolean): number {
  return one.reduce((sum, partial, i) => sum + (same ? one.slice(i + 1) : other).reduce((inner, next) => inner + roughPair(partial, next), 0), 0);
}

function energyOf(partials: readonly Partial[]): number {
  return partials.reduce((sum, { amplitude }) => sum + amplitude ** 2, 0);
}
