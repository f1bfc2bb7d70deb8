import type { Pitch, Score, ScoreNote } from '../score/index.js';

/** One stave of the plain picture. */
export interface GridStave {
  readonly staff: number;
  /** Outer lines, px. */
  readonly top: number;
  readonly bottom: number;
  /** Diatonic number (octave × 7 + step, C = 0) of its middle line. */
  readonly middle: number;
}

/** Steps in the order of their diatonic numbers. */
const STEPS = 'CDEFGAB';

/** Middle lines of the treble (B4) and the bass stave (D3). */
const TREBLE_MIDDLE = 4 * 7 + 6;
const BASS_MIDDLE = 3 * 7 + 1;

/** Middle C: a stave whose middling note lies at or above it is a treble stave. */
const MIDDLE_C = 60;

/** Least distance of two staves, in stave spaces. */
const LEAST_GAP = 6;

/** Free stave spaces between the extreme notes of neighbouring staves. */
const CLEAR_SPACES = 2;

/**
 * The staves of one row from the top at 0, as far apart as its highest and lowest notes need. Whether a stave is
 * treble or bass is asked of the whole score, so that it stays the same in every row.
 */
export function gridStaves(score: Score, notes: readonly ScoreNote[], spacePx: number): readonly GridStave[] {
  const numbers = Array.from({ length: Math.max(1, score.staves) }, (_, i) => i + 1);
  return numbers.reduce<readonly GridStave[]>((done, staff) => {
    const middle = middleOf(score.notes.filter((note) => note.staff === staff));
    const above = done.at(-1);
    const top = above ? above.bottom + spacePx * gapBetween(above, { staff, middle }, notes) : 0;
    return [...done, { staff, middle, top, bottom: top + 4 * spacePx }];
  }, []);
}

/** Height of a pitch on a stave. */
export function stepY(pitch: Pitch, stave: GridStave, spacePx: number): number {
  return (stave.top + stave.bottom) / 2 - ((diatonic(pitch) - stave.middle) * spacePx) / 2;
}

/** Diatonic number: seven to the octave, accidentals aside. */
export function diatonic({ step, octave }: Pick<Pitch, 'step' | 'octave'>): number {
  return octave * 7 + STEPS.indexOf(step);
}

/** Middle line of the clef that fits most of these notes. */
function middleOf(notes: readonly ScoreNote[]): number {
  const sorted = notes.map(({ pitch }) => pitch.midi).sort((a, b) => a - b);
  return (sorted[Math.floor(sorted.length / 2)] ?? MIDDLE_C) >= MIDDLE_C ? TREBLE_MIDDLE : BASS_MIDDLE;
}

/** Stave spaces between two staves, ledger lines of both counted. */
function gapBetween(upper: GridStave, lower: { readonly staff: number; readonly middle: number }, notes: readonly ScoreNote[]): number {
  const beyond = (staff: number, spaces: (step: number) => number): number =>
    Math.max(0, ...notes.filter((note) => note.staff === staff).map(({ pitch }) => spaces(diatonic(pitch))));
  const down = beyond(upper.staff, (step) => (upper.middle - step) / 2 - 2);
  const up = beyond(lower.staff, (step) => (step - lower.middle) / 2 - 2);
  return Math.max(LEAST_GAP, down + up + CLEAR_SPACES);
}
