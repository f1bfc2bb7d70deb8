/** The record of a demo piece, before it becomes a score file or a recording. */

/** Something printed between or over the staves, `at` divisions from the start of its bar. */
export type Mark =
  | { readonly kind: 'dynamics'; readonly at: number; readonly text: Dynamic }
  | { readonly kind: 'hairpin'; readonly at: number; readonly type: 'crescendo' | 'diminuendo' | 'stop' }
  /** `only` the page has the lines that are printed longer than the foot's movements, `only` the foot what is left to the player. */
  | { readonly kind: 'pedal'; readonly at: number; readonly type: 'start' | 'change' | 'stop'; readonly only?: 'page' | 'foot' }
  /** `below` is under the lower stave. */
  | { readonly kind: 'words'; readonly at: number; readonly text: string; readonly place?: 'below' };

/** Loudness marks that the demo pieces use. */
export type Dynamic = 'pp' | 'p' | 'mp' | 'mf' | 'f' | 'ff';

/** One printed bar. */
export interface WrittenBar {
  /** Printed number; "0" for the upbeat. */
  readonly number: string;
  /** Right hand in the language of `notation.ts`. */
  readonly right: string;
  readonly left: string;
  /** Chords as planned, with the division at which each begins: what the left hand must spell. */
  readonly harmony: readonly (readonly [at: number, chord: string])[];
  readonly marks: readonly Mark[];
  readonly repeat: 'forward' | 'backward' | null;
  /** Number of the ending that is this bar alone, or null. */
  readonly ending: 1 | 2 | null;
  /** True where the left hand plays above the right, in the treble clef, for the whole bar. */
  readonly crossing?: boolean;
}

/** A demo piece as composed. */
export interface Piece {
  /** Folder name and address. */
  readonly slug: string;
  readonly title: string;
  /** Sharps (+) or flats (-) of the key signature. */
  readonly fifths: number;
  readonly mode: 'major' | 'minor';
  readonly beats: number;
  readonly beatType: number;
  /** Tempo word as printed. */
  readonly tempoWord: string;
  /** Value of the metronome mark: a crotchet, dotted or not. */
  readonly beatUnit: 'quarter' | 'dotted quarter';
  /** Metronome figure in `beatUnit`s a minute. */
  readonly perMinute: number;
  readonly bars: readonly WrittenBar[];
  /** First and last bar index of each phrase, for the player's shaping. */
  readonly phrases: readonly (readonly [first: number, last: number])[];
}

/** Divisions that the time signature gives a bar. */
export function fullBar(piece: Piece): number {
  return (piece.beats * 16) / piece.beatType;
}

/** Divisions of one felt beat: the dotted crotchet in 6/8, else the note of the signature's lower figure. */
export function beatLength(piece: Piece): number {
  return piece.beatType === 8 && piece.beats % 3 === 0 ? 6 : 16 / piece.beatType;
}

/** The metronome mark in crotchets a minute, which is what MusicXML's `sound tempo` counts in 6/8 too. */
export function crotchetsPerMinute(piece: Piece): number {
  return piece.perMinute * (piece.beatUnit === 'quarter' ? 1 : 1.5);
}
