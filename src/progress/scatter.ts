/*
 * Is a difference between two recordings more than this player's own scatter, and more than can be heard?
 *
 * Conventions: values are paired by what they were measured at (a written note, a bar), later minus earlier or the other way round;
 *   only their size counts. A floor is what cannot be heard or what no hand repeats, in the unit of the values.
 * Method: the scatter is taken from all differences of the two recordings, from their lower quarter, so that a fault which
 *   covers most of the piece does not hide itself; and around their middle where that is less, so that what is other all through,
 *   such as the tempo, does not either. What differs by three times that and by the floor has changed.
 * Source: for a normal distribution a quarter of all values lie within 0.3186 standard deviations of the mean (standard
 *   tables); three standard deviations are common practice in quality control, no source.
 * What it does not tell: which of the two is better.
 */
import { median, quantile } from 'simple-statistics';

/** A quarter of normal values is at most (<=) this many standard deviations from the mean. */
const LOWER_QUARTER_SD = 0.3186;

/** So many standard deviations (>=) are more than scatter. */
export const BEYOND_SCATTER_SD = 3;

/** With fewer differences (<) scatter cannot be told, and the floor alone decides. */
const LEAST_DIFFERENCES = 8;

/** Velocity units: a difference under (<) this is never a change (Slade et al. 2022: 2.7 to 4.5 units are just noticed on a grand). */
export const LEVEL_UNITS = 3;

/** Values of one recording by the place they were measured at. */
export type Values = ReadonlyMap<number | string, number>;

/** Standard deviation of the differences at the places that both have; 0 where there are too few. */
export function scatterOf(one: Values, other: Values): number {
  const differences = [...one].flatMap(([place, value]) => differenceAt(other, place, value));
  if (differences.length < LEAST_DIFFERENCES) return 0;
  const around = (middle: number): number => quantile(differences.map((difference) => Math.abs(difference - middle)), 0.25) / LOWER_QUARTER_SD;
  return Math.min(around(0), around(median(differences)));
}

/**
 * True where the values differ at one of these places by more than scatter and by the floor at least (>=); also where only one
 * recording has a value there, or none has: then the values cannot speak against a change.
 */
export function differs(one: Values, other: Values, { places, floor }: { readonly places: readonly (number | string)[]; readonly floor: number }): boolean {
  const sizes = places.flatMap((place) => differenceAt(other, place, one.get(place)).map(Math.abs));
  return sizes.length === 0 || Math.max(...sizes) >= Math.max(floor, BEYOND_SCATTER_SD * scatterOf(one, other));
}

/**
 * The same for the shape of the values alone: what the differences at these places have in common is taken out of them.
 * A slow and a quick playing that both hurry by as much are alike.
 */
export function differsInShape(one: Values, other: Values, { places, floor }: { readonly places: readonly (number | string)[]; readonly floor: number }): boolean {
  const differences = places.flatMap((place) => differenceAt(other, place, one.get(place)));
  return differences.length === 0 || Math.max(...differences) - Math.min(...differences) >= floor;
}

/** The difference at a place; none where one of the two has no value. */
function differenceAt(other: Values, place: number | string, value: number | undefined): readonly number[] {
  const against = other.get(place);
  return value === undefined || against === undefined ? [] : [value - against];
}
