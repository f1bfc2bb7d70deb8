/** Lengths as printed note values. A length that no single value has is written as several, tied. */

/** A printed note value on the grid of MIDI scores (24 ticks to the crotchet). */
export interface NoteValue {
  readonly ticks: number;
  readonly type: string;
  readonly dots: 0 | 1;
  readonly triplet: boolean;
}

/** Printed values of multiples of a demisemiquaver, longest first. */
const PLAIN: readonly NoteValue[] = [
  { ticks: 96, type: 'whole', dots: 0, triplet: false },
  { ticks: 72, type: 'half', dots: 1, triplet: false },
  { ticks: 48, type: 'half', dots: 0, triplet: false },
  { ticks: 36, type: 'quarter', dots: 1, triplet: false },
  { ticks: 24, type: 'quarter', dots: 0, triplet: false },
  { ticks: 18, type: 'eighth', dots: 1, triplet: false },
  { ticks: 12, type: 'eighth', dots: 0, triplet: false },
  { ticks: 9, type: '16th', dots: 1, triplet: false },
  { ticks: 6, type: '16th', dots: 0, triplet: false },
  { ticks: 3, type: '32nd', dots: 0, triplet: false },
];

/** Printed values of triplets, longest first. */
const TRIPLETS: readonly NoteValue[] = [
  { ticks: 32, type: 'half', dots: 0, triplet: true },
  { ticks: 16, type: 'quarter', dots: 0, triplet: true },
  { ticks: 8, type: 'eighth', dots: 0, triplet: true },
  { ticks: 4, type: '16th', dots: 0, triplet: true },
  { ticks: 2, type: '32nd', dots: 0, triplet: true },
  { ticks: 1, type: '64th', dots: 0, triplet: true },
];

/**
 * A length as printed values to be tied, longest first: plain ones where three divides it, else one triplet value
 * first that leaves the rest plain.
 * @param ticks whole and positive, on the grid of 24 to the crotchet
 */
export function printedValues(ticks: number): readonly NoteValue[] {
  const triplet = ticks % 3 === 0 ? undefined : TRIPLETS.find((value) => value.ticks <= ticks && (ticks - value.ticks) % 3 === 0);
  const values = triplet === undefined ? [] : [triplet];
  let left = ticks - (triplet?.ticks ?? 0);
  while (left > 0) {
    const value = PLAIN.find((candidate) => candidate.ticks <= left);
    if (value === undefined) break;
    values.push(value);
    left -= value.ticks;
  }
  return values;
}
