import { word, type Language } from '../base/index.js';
import type { Score } from './types.js';

/**
 * Editors number the second half of a split bar "X1", "X2" …: a number for machines, not for
 * people.
 */
const NUMBER_FOR_MACHINES = /^X\d*$/i;

/** Names of bars as they are spoken. Bars are given by their place in `Score.bars`. */
export interface BarNames {
  /** "7", "12a"; empty for an upbeat and for the second half of a split bar. */
  short(barIndex: number): string;
  /** "bar 7", "the upbeat", "the second half of bar 8". */
  long(barIndex: number): string;
  /** "bar 7", "bars 5–8", "the upbeat to bar 4". */
  range(from: number, to: number): string;
}

/** Names the bars of one score. */
export function barNames(score: Pick<Score, 'bars'>, language: Language = 'british'): BarNames {
  const short = (barIndex: number): string => shortName(score, barIndex);
  const long = (barIndex: number): string => longName(score, barIndex, language);
  return { short, long, range: (from, to) => rangeName(score, from, to, language) };
}

/** True for the unnumbered beginning of a piece. */
function isUpbeat(score: Pick<Score, 'bars'>, barIndex: number): boolean {
  const bar = score.bars[barIndex];
  return barIndex === 0 && bar !== undefined && (bar.implicit || bar.number === '0');
}

/** The printed number, or nothing where none is printed. */
function shortName(score: Pick<Score, 'bars'>, barIndex: number): string {
  const number = score.bars[barIndex]?.number ?? '';
  return isUpbeat(score, barIndex) || NUMBER_FOR_MACHINES.test(number) ? '' : number;
}

/** The name within a sentence. */
function longName(score: Pick<Score, 'bars'>, barIndex: number, language: Language): string {
  if (isUpbeat(score, barIndex)) return `the ${word('upbeat', language)}`;
  const number = shortName(score, barIndex);
  if (number !== '') return `${word('bar', language)} ${number}`;
  const before = lastNumbered(score, barIndex);
  return before === '' ? `${word('bar', language)} without a number` : `the second half of ${word('bar', language)} ${before}`;
}

/** Two bars with a dash between, or the one bar; both ends in words where one has no number. */
function rangeName(score: Pick<Score, 'bars'>, from: number, to: number, language: Language): string {
  if (from === to) return longName(score, from, language);
  const first = shortName(score, from);
  const last = shortName(score, to);
  if (first !== '' && last !== '') return `${word('bars', language)} ${first}–${last}`;
  return `${longName(score, from, language)} to ${longName(score, to, language)}`;
}

/** The printed number of the nearest numbered bar before. */
function lastNumbered(score: Pick<Score, 'bars'>, barIndex: number): string {
  for (let i = barIndex - 1; i >= 0; i--) {
    const number = shortName(score, i);
    if (number !== '') return number;
  }
  return '';
}
