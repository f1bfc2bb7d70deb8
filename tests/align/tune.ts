/**
 * A tune of eight bars in crotchets, no three notes of it twice, so that every place has one right answer; its players; and
 * the names that its notes should get.
 */
import type { Score } from '../../src/score/index.js';
import { keys, score, type Key } from './build.js';

const RIGHT = ['C4 D4 E4 F4', 'G4 E4 A4 F4', 'B4 G4 C5 A4', 'D5 B4 E5 C5', 'F5 A4 G4 D5', 'C5 F4 B4 E4', 'A4 C4 G4 D4', 'E4 B3 F4 C4'] as const;
const LEFT = ['C3 G2 E3 C2', 'B2 E3 F2 A2', 'G2 D3 A2 E2', 'D2 B2 C3 G3', 'F3 A2 F2 D3', 'E3 D2 G2 C3', 'A3 F2 B2 D3', 'G3 E2 C3 C2'] as const;

/** Crotchets of a bar. */
const BEATS = 4;
/** Seconds of a crotchet and of a bar where nothing else is said. */
export const CROTCHET_S = 0.5;
export const BAR_S = BEATS * CROTCHET_S;

/** Which hand, and how fast. */
export interface Way {
  readonly hand?: 'right' | 'left';
  /** Seconds of a crotchet. */
  readonly stepS?: number;
  readonly attempt?: number;
  readonly pass?: number;
}

/** The right hand's tune alone, or both hands. */
export function tune(hands: 'right' | 'both' = 'both'): Score {
  return score(RIGHT.map((right, i) => (hands === 'right' ? { right } : { right, left: LEFT[i]! })));
}

/** Printed bars, both ends played, from a moment on. */
export function plays(from: number, to: number, startS: number, { hand, stepS = CROTCHET_S }: Way = {}): Key[] {
  const line = (texts: readonly string[]): Key[] => keys(startS, stepS, texts.slice(from - 1, to).join(' '));
  return [...(hand === 'left' ? [] : line(RIGHT)), ...(hand === 'right' ? [] : line(LEFT))];
}

/** What `said` should give for these bars: beat by beat, the left hand's note first, since it is the lower one. */
export function names(from: number, to: number, { hand, attempt = 1, pass = 1 }: Way = {}): string {
  const ends = (pass > 1 ? `/${pass}` : '') + (attempt > 1 ? `@${attempt}` : '');
  const letters = ['l', 'r'].filter((letter) => (hand ?? letter).startsWith(letter));
  const beats = Array.from({ length: BEATS * (to - from + 1) }, (_, i) => `${from + Math.floor(i / BEATS)}-${1 + (i % BEATS)}`);
  return beats.flatMap((beat) => letters.map((letter) => letter + beat + ends)).join(' ');
}
