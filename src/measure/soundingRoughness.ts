/*
 * The teacher's question: how rough is a handful of sounding notes, each at its level?
 *
 * Conventions: levels in dB on one scale; the measure is that of hutchinsonKnopoff.ts on the notes' harmonics, to the digit.
 * Method: the measure's sum is one of pairs of notes weighed by their amplitudes, so each pair of keys is worked out once and
 *   kept; after that a moment costs one multiplication a pair.
 * Source: Hutchinson and Knopoff (1978); the rearrangement is our own.
 * What it does not tell: what hutchinsonKnopoff.ts does not.
 */
import { roughPair } from './hutchinsonKnopoff.js';
import { partialsOf, type Partial } from './partials.js';

/** A note that sounds at some level, dB. */
export interface SoundingNote {
  readonly pitch: number;
  readonly levelDb: number;
}

/** Roughness of some sounding notes. */
export type RoughnessTeller = (notes: readonly SoundingNote[]) => number;

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
  return (notes) => sumOf(notes, between, energy);
}

/** The measure's quotient from the table. */
function sumOf(notes: readonly SoundingNote[], between: (one: number, other: number) => number, energy: number): number {
  const amplitudes = notes.map(({ levelDb }) => 10 ** (levelDb / 20));
  let rough = 0;
  let total = 0;
  for (let i = 0; i < notes.length; i += 1) {
    const [one, amplitude = 0] = [notes[i], amplitudes[i]];
    if (one === undefined) continue;
    total += energy * amplitude * amplitude;
    rough += between(one.pitch, one.pitch) * amplitude * amplitude;
    for (let j = i + 1; j < notes.length; j += 1) rough += between(one.pitch, notes[j]?.pitch ?? 0) * amplitude * (amplitudes[j] ?? 0);
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
