/**
 * What the composer of a demo piece knows about it and the score does not say: written down beside the piece, so that an
 * analysis can be held against the intention. Bars are printed numbers, both ends inclusive; `at` counts divisions from
 * the start of a bar.
 */
import type { Piece } from './piece.js';

/** First and last printed bar. */
export type Bars = readonly [first: string, last: string];

/** A section of the form: the same letter for the same music, a stroke for a varied return. */
export interface PlannedSection {
  readonly letter: string;
  readonly bars: Bars;
  readonly what: string;
}

/** A key and the bar from which it holds. */
export interface PlannedKey {
  readonly bar: string;
  /** Spelled: "Ab", "D". */
  readonly tonic: string;
  readonly mode: 'major' | 'minor';
}

/** A chord where it begins. */
export interface PlannedChord {
  readonly bar: string;
  readonly at: number;
  /** Root, quality, bass after a stroke: "Bbm/Db"; "5" has no third, "+6" is an Italian sixth. */
  readonly chord: string;
  /** Degree in the key that holds there: "ii6", "V65/iv". */
  readonly roman: string;
}

/** A cadence; `at` is the place of its last chord. */
export interface PlannedCadence {
  readonly bar: string;
  readonly at: number;
  readonly kind: 'perfect' | 'half' | 'interrupted' | 'plagal';
}

/** A place meant to trip a pupil. */
export interface PlannedPitfall {
  readonly bars: Bars;
  readonly hand: 'right' | 'left' | 'both';
  readonly what: string;
}

/** What the pedal should do in some bars. */
export interface PlannedPedal {
  readonly bars: Bars;
  readonly use: 'change with the harmony' | 'let it ring' | 'none';
  readonly reason: string;
}

/** All planned facts of one piece. */
export interface PieceFacts {
  /** Slug of the piece. */
  readonly piece: string;
  readonly sections: readonly PlannedSection[];
  readonly keys: readonly PlannedKey[];
  readonly chords: readonly PlannedChord[];
  readonly cadences: readonly PlannedCadence[];
  readonly pitfalls: readonly PlannedPitfall[];
  readonly pedal: readonly PlannedPedal[];
}

/**
 * Puts degrees to the chords that stand in the piece's bars.
 * @param degrees one text a bar, from the first bar to the last: degrees between spaces, as many as the bar has chords
 * @throws RangeError where a bar has more or fewer degrees than chords
 */
export function plannedChords(piece: Piece, degrees: readonly string[]): readonly PlannedChord[] {
  if (degrees.length !== piece.bars.length) throw new RangeError(`${piece.slug}: ${String(degrees.length)} bars of degrees`);
  return piece.bars.flatMap(({ number, harmony }, i) => {
    const romans = (degrees[i] ?? '').split(' ').filter((roman) => roman !== '');
    if (romans.length !== harmony.length) throw new RangeError(`${piece.slug}: bar ${number} has other degrees than chords`);
    return harmony.map(([at, chord], j) => ({ bar: number, at, chord, roman: romans[j] ?? '' }));
  });
}
