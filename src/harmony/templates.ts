/*
 * Question: which chords are there, as sets of notes over a root?
 * Conventions: semitones above the root, in the order root, third, fifth, seventh. A chord's number is its quality's
 *   place times twelve plus its root.
 * Source: chord templates over twelve roots after Pardo and Birmingham 2002, Computer Music Journal 26(2), 27-49; the
 *   sevenths are our own addition. The French sixth stands over the supertonic, as its notes do (D F# Ab C in C). The cadential six-four
 *   stands over the dominant that it delays (G C E in C): it belongs to it.
 */
import { mod } from './pitchNames.js';
import type { SoughtQuality } from './types.js';

/** A quality with its intervals. */
export interface Template {
  readonly quality: SoughtQuality;
  /** Semitones from the root: root, third, fifth, and seventh where there is one. */
  readonly intervals: readonly number[];
  /** The same as steps on the line of fifths, for spelling. */
  readonly fifths: readonly number[];
  /** How the chord is written after its root. */
  readonly suffix: string;
}

/** Every quality sought. */
export const TEMPLATES: readonly Template[] = [
  { quality: 'major', intervals: [0, 4, 7], fifths: [0, 4, 1], suffix: '' },
  { quality: 'minor', intervals: [0, 3, 7], fifths: [0, -3, 1], suffix: 'm' },
  { quality: 'diminished', intervals: [0, 3, 6], fifths: [0, -3, -6], suffix: 'dim' },
  { quality: 'augmented', intervals: [0, 4, 8], fifths: [0, 4, 8], suffix: 'aug' },
  { quality: 'dominantSeventh', intervals: [0, 4, 7, 10], fifths: [0, 4, 1, -2], suffix: '7' },
  { quality: 'majorSeventh', intervals: [0, 4, 7, 11], fifths: [0, 4, 1, 5], suffix: 'maj7' },
  { quality: 'minorSeventh', intervals: [0, 3, 7, 10], fifths: [0, -3, 1, -2], suffix: 'm7' },
  { quality: 'halfDiminishedSeventh', intervals: [0, 3, 6, 10], fifths: [0, -3, -6, -2], suffix: 'm7b5' },
  { quality: 'diminishedSeventh', intervals: [0, 3, 6, 9], fifths: [0, -3, -6, -9], suffix: 'dim7' },
  { quality: 'frenchSixth', intervals: [0, 4, 6, 10], fifths: [0, 4, -6, -2], suffix: '7b5' },
  { quality: 'cadentialSixFour', intervals: [0, 5, 9], fifths: [0, -1, 3], suffix: ' six-four' },
  { quality: 'cadentialSixFourMinor', intervals: [0, 5, 8], fifths: [0, -1, -4], suffix: ' six-four' },
];

/** How many chords are sought. */
export const CHORD_COUNT = TEMPLATES.length * 12;

/** A chord by number. */
export interface Chord {
  readonly root: number;
  readonly template: Template;
}

/** The numbered chords, worked out once. */
export const CHORDS: readonly Chord[] = TEMPLATES.flatMap((template) => Array.from({ length: 12 }, (_, root) => ({ root, template })));

/** Pitch classes of a chord in the order root, third, fifth, seventh. */
export function chordPitchClasses(chord: Chord): readonly number[] {
  return chord.template.intervals.map((interval) => mod(chord.root + interval, 12));
}
