/**
 * The grid of exact positions. Positions are whole ticks, never fractions of a crotchet: three triplet quavers end
 * exactly where the crotchet does, however long the piece.
 */
import { InputError } from '../base/index.js';
import { MAX_DIVISIONS, MAX_DURATION_QUARTERS, MAX_TICKS_PER_QUARTER } from './limits.js';
import { plainNumber, readDecimal } from './values.js';
import { childText, childrenNamed, type XmlElement } from './xmlTree.js';

/** Most decimal places of a duration that are kept exact; MusicXML allows decimals, programs hardly write them. */
const MOST_PLACES = 4;

/** The common grid of one score: every duration of the file is a whole number of its ticks. */
export interface Grid {
  readonly ticksPerQuarter: number;
  /** 10 to the number of decimal places that durations of this file carry; 1 nearly always. */
  readonly decimalScale: number;
}

/**
 * The coarsest grid on which all divisions of the file and all its beat values are whole: the least common multiple
 * of the divisions (MusicXML 4.0: divisions to the crotchet) and of the fractions of a crotchet that beats need.
 * @throws InputError `bad-value` for divisions that are no positive number, `too-large` where no sane grid exists
 */
export function commonGrid(measures: readonly XmlElement[]): Grid {
  const divisions = new Map<string, XmlElement>();
  let places = 0;
  let ticks = 1;
  for (const measure of measures) {
    for (const element of measure.children) {
      if (element.name === 'attributes') {
        for (const entry of childrenNamed(element, 'divisions')) divisions.set(entry.text.trim(), measure);
        ticks = childrenNamed(element, 'time').reduce((sum, time) => leastCommonMultiple(sum, beatFraction(time)), ticks);
      } else {
        places = Math.max(places, decimalPlaces(childText(element, 'duration')));
      }
    }
  }
  places = Math.max(places, ...[...divisions.keys()].map(decimalPlaces));
  const decimalScale = 10 ** places;
  for (const [text, measure] of divisions) {
    ticks = leastCommonMultiple(ticks, Math.round(readDivisions(text, measure) * decimalScale));
    if (ticks > MAX_TICKS_PER_QUARTER) {
      throw new InputError(
        'too-large',
        `The divisions of this file have no common grid of at most ${MAX_TICKS_PER_QUARTER} ticks to the crotchet.`,
        placeOf(measure),
      );
    }
  }
  return { ticksPerQuarter: ticks, decimalScale };
}

/** A duration in ticks of the grid, exact. Negative and absurd durations are refused by the caller's rule. */
export function ticksOf(quartersTimesDivisions: number, divisions: number, grid: Grid): number {
  const scaled = Math.round(quartersTimesDivisions * grid.decimalScale);
  return (scaled * grid.ticksPerQuarter) / Math.round(divisions * grid.decimalScale);
}

/** @throws InputError `bad-value` unless it is a positive number within reason */
export function readDivisions(text: string | undefined, measure: XmlElement): number {
  const value = readDecimal(text, { what: 'The number of divisions of a crotchet', min: 0, max: MAX_DIVISIONS }, placeOf(measure));
  if (value === 0)
    throw new InputError('bad-value', 'The number of divisions of a crotchet is 0; expected a positive number.', placeOf(measure));
  return value;
}

/** Longest duration in divisions that is accepted. */
export function longestDuration(divisions: number): number {
  return MAX_DURATION_QUARTERS * divisions;
}

/** Bar and line of something in a measure, for errors. */
export function placeOf(measure: XmlElement): { readonly bar: string; readonly line: number } {
  return { bar: measure.attributes['number'] ?? '?', line: measure.line };
}

/** Parts of a crotchet that a beat of this time signature needs: 2 for quavers, 1 for crotchets and longer. */
function beatFraction(time: XmlElement): number {
  return childrenNamed(time, 'beat-type').reduce((most, entry) => {
    const beatType = plainNumber(entry.text.trim());
    return beatType !== null && Number.isInteger(beatType) && beatType > 0 && beatType <= 1024
      ? Math.max(most, beatType / greatestCommonDivisor(beatType, 4))
      : most;
  }, 1);
}

/** Decimal places of a number as written, the first `MOST_PLACES` of them, trailing zeros left out. */
function decimalPlaces(text: string | undefined): number {
  const point = text?.indexOf('.') ?? -1;
  if (text === undefined || point < 0) return 0;
  return text.slice(point + 1, point + 1 + MOST_PLACES).trimEnd().replace(/0+$/, '').length;
}

/** Divides before it multiplies, to stay within safe whole numbers. */
function leastCommonMultiple(a: number, b: number): number {
  return (a / greatestCommonDivisor(a, b)) * b;
}

/** Euclid's algorithm. */
function greatestCommonDivisor(a: number, b: number): number {
  return b === 0 ? a : greatestCommonDivisor(b, a % b);
}
