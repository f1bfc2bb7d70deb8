/** Words that several pitfalls share: intervals, distances, note values, speeds. No decimals anywhere. */
import { countInWords, word, type TradeWordName } from '../base/index.js';
import type { Score } from '../score/index.js';
import { spellingInWords, STEPS } from './noteNames.js';
import type { OneHand } from './handLines.js';
import type { PitfallGround } from './pitfallTypes.js';

/** Diatonic intervals beyond the octave, from the ninth. */
const WIDE_INTERVALS = ['a ninth', 'a tenth', 'an eleventh', 'a twelfth', 'a thirteenth', 'a fourteenth', 'two octaves'];

/** "a tenth" between two written notes of a chord, by their letters. */
export function intervalInWords(score: Score, lowIndex: number | undefined, highIndex: number | undefined): string {
  const [low, high] = [score.notes[lowIndex ?? -1]?.pitch, score.notes[highIndex ?? -1]?.pitch];
  if (low === undefined || high === undefined) return 'a wide interval';
  const steps = (high.octave - low.octave) * 7 + STEPS.indexOf(high.step) - STEPS.indexOf(low.step);
  if (steps > 14) return 'more than two octaves';
  return WIDE_INTERVALS[steps - 8] ?? 'an octave';
}

/** How far a jump goes, in the words of the keyboard; semitones, wider than an octave. */
export function distanceInWords(semitones: number): string {
  if (semitones < 17) return 'more than an octave';
  if (semitones < 21) return 'about an octave and a half';
  if (semitones < 24) return 'nearly two octaves';
  if (semitones === 24) return 'two octaves';
  if (semitones < 33) return 'more than two octaves';
  if (semitones < 36) return 'nearly three octaves';
  return semitones === 36 ? 'three octaves' : 'more than three octaves';
}

/** Note values by their length in crotchets. */
const VALUES: ReadonlyMap<number, TradeWordName> = new Map([
  [4, 'semibreve'], [3, 'dottedMinim'], [2, 'minim'], [1.5, 'dottedCrotchet'], [1, 'crotchet'], [0.75, 'dottedQuaver'], [0.5, 'quaver'], [0.25, 'semiquaver'], [0.125, 'demisemiquaver'],
]);

/** A length as a note value, "quaver"; null where it is none. */
export function valueInWords({ score, language }: Pick<PitfallGround, 'score' | 'language'>, ticks: number): string | null {
  const name = VALUES.get(ticks / score.ticksPerQuarter);
  return name === undefined ? null : word(name, language);
}

/** "about nine notes a second". */
export function speedInWords(perSecond: number): string {
  return `about ${countInWords(Math.round(perSecond))} notes a second`;
}

/** Name of a written note by its place. */
export function noteName(score: Score, noteIndex: number | undefined): string {
  const note = score.notes[noteIndex ?? -1];
  return note === undefined ? 'note' : spellingInWords(note.pitch);
}

/** "the right hand", "the hands". */
export function theHand(hand: OneHand | 'both'): string {
  return hand === 'both' ? 'the hands' : `the ${hand} hand`;
}

/** "A flat" goes with "an", "G" with "a". */
export function withArticle(name: string): string {
  return `${/^[AEF]/.test(name) ? 'an' : 'a'} ${name}`;
}

/** Groups items by a key, in order of first appearance. */
export function groupsOf<T>(items: readonly T[], keyOf: (item: T) => string): readonly (readonly [T, ...T[]])[] {
  const groups = new Map<string, [T, ...T[]]>();
  for (const item of items) {
    const group = groups.get(keyOf(item));
    if (group === undefined) groups.set(keyOf(item), [item]);
    else group.push(item);
  }
  return [...groups.values()];
}

/** The greatest value of a group. */
export function greatest<T>(items: readonly T[], valueOf: (item: T) => number): number {
  return items.reduce((most, item) => Math.max(most, valueOf(item)), Number.NEGATIVE_INFINITY);
}

/** A value brought to 0-1 between two ends. */
export function between(value: number, low: number, high: number): number {
  return Math.min(1, Math.max(0, (value - low) / (high - low)));
}
