/*
 * Question: how much does a key expect a chord, and one root another?
 * Conventions: charges, 0 for the most expected; rows are semitones of the root above the tonic.
 * Method: two tables, major and minor, worked out once for 24 keys; chords not in a table take the charge of a
 *   stranger. Root movement by the falling fifth is free.
 * Source: the usual ranking of the harmony textbooks (diatonic, then applied dominants, then borrowed and chromatic
 *   chords); the figures are our own and round.
 * What it does not tell: anything that the notes contradict.
 */
import { mod } from './pitchNames.js';
import { KEY_COUNT, modeOf, tonicOf } from './profiles.js';
import { CHORDS, CHORD_COUNT } from './templates.js';
import type { Mode, SoughtQuality } from './types.js';

/** Charges by quality for one degree. */
type Row = Readonly<Partial<Record<SoughtQuality, number>>>;

/** Charge of a triad or seventh that a key does not know. */
const STRANGE_TRIAD = 1.6;
const STRANGE_SEVENTH = 2;

/** Charge of a six-four over anything but the dominant: it is no chord of its own. */
const STRANGE_SIX_FOUR = 8;

/** Charge of a six-four that goes anywhere but to the dominant it delays. */
const SIX_FOUR_ASTRAY = 3;

/** What each mode expects, by semitones above the tonic. */
const EXPECTED: Readonly<Record<Mode, Readonly<Record<number, Row>>>> = {
  major: {
    0: { major: 0, dominantSeventh: 0.9, majorSeventh: 1.1, minor: 1.3 },
    1: { diminishedSeventh: 0.9, diminished: 1.1, major: 1.2 },
    2: { minor: 0.3, minorSeventh: 0.4, dominantSeventh: 0.6, major: 0.8, halfDiminishedSeventh: 0.9, diminished: 1.1, frenchSixth: 1.2 },
    3: { major: 1.3, diminishedSeventh: 1.2 },
    4: { minor: 0.7, minorSeventh: 1, dominantSeventh: 0.9, major: 1, diminished: 1.1, diminishedSeventh: 1, halfDiminishedSeventh: 1.2 },
    5: { major: 0.2, majorSeventh: 0.8, minor: 1 },
    6: { diminished: 0.7, diminishedSeventh: 0.7, halfDiminishedSeventh: 0.8 },
    7: { major: 0, dominantSeventh: 0, minor: 1.3, cadentialSixFour: 0.3, cadentialSixFourMinor: 1 },
    8: { major: 1.3, dominantSeventh: 1.2, diminishedSeventh: 0.9, diminished: 1 },
    9: { minor: 0.3, minorSeventh: 0.6, dominantSeventh: 0.8, major: 0.9 },
    10: { major: 1.3 },
    11: { diminished: 0.4, halfDiminishedSeventh: 0.5, diminishedSeventh: 0.5, dominantSeventh: 1.3 },
  },
  minor: {
    0: { minor: 0, major: 0.9, dominantSeventh: 0.9, minorSeventh: 1 },
    1: { major: 0.8, majorSeventh: 1.3 },
    2: { diminished: 0.4, halfDiminishedSeventh: 0.3, minor: 1.1, dominantSeventh: 0.9, major: 1, frenchSixth: 1 },
    3: { major: 0.5, augmented: 1, dominantSeventh: 0.9, majorSeventh: 1 },
    4: { diminishedSeventh: 0.9, diminished: 1 },
    5: { minor: 0.2, minorSeventh: 0.6, major: 1, dominantSeventh: 1.3 },
    6: { diminishedSeventh: 0.6, diminished: 0.9, halfDiminishedSeventh: 1 },
    7: { major: 0, dominantSeventh: 0, minor: 0.7, minorSeventh: 1, cadentialSixFourMinor: 0.3, cadentialSixFour: 1.1 },
    8: { major: 0.3, majorSeventh: 0.8, dominantSeventh: 0.8 },
    9: { diminished: 1.2, halfDiminishedSeventh: 1.1, diminishedSeventh: 1.2 },
    10: { major: 0.6, dominantSeventh: 0.6, minor: 1.3 },
    11: { diminished: 0.4, diminishedSeventh: 0.2, halfDiminishedSeventh: 1.3 },
  },
};

/** Charge for the movement of a root up by so many semitones; 0 is the same root with another quality. */
const MOTION: readonly number[] = [0.3, 0.2, 0.3, 0.6, 0.6, 0, 0.8, 0.3, 0.5, 0.4, 0.5, 0.6];

/** Charges of all chords in one key, by chord number. */
export function chordCharges(key: number): Float64Array {
  return Float64Array.from(CHORDS, ({ root, template }) => {
    const row = EXPECTED[modeOf(key)][mod(root - tonicOf(key), 12)];
    const stranger = isSixFour(template.quality) ? STRANGE_SIX_FOUR : template.intervals.length > 3 ? STRANGE_SEVENTH : STRANGE_TRIAD;
    return row?.[template.quality] ?? stranger;
  });
}

/** Charges of all chords in all keys, by key number. */
export function allChordCharges(): readonly Float64Array[] {
  return Array.from({ length: KEY_COUNT }, (_, key) => chordCharges(key));
}

/** Charge for moving from a chord to another chord on a root. */
export function motionCharge(from: number, root: number): number {
  const up = mod(root - (from % 12), 12);
  const sixFour = CHORDS[from];
  return (MOTION[up] ?? 0) + (up !== 0 && sixFour !== undefined && isSixFour(sixFour.template.quality) ? SIX_FOUR_ASTRAY : 0);
}

/** Whether a quality is the cadential six-four. */
export function isSixFour(quality: SoughtQuality): boolean {
  return quality === 'cadentialSixFour' || quality === 'cadentialSixFourMinor';
}

/** All of `motionCharge`, index from × 12 + root. */
export function motionTable(): Float64Array {
  return Float64Array.from({ length: CHORD_COUNT * 12 }, (_, i) => motionCharge(Math.floor(i / 12), i % 12));
}
