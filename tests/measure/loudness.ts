/** Invented pieces with marks of level, and how loud they were played. */
import type { Piece } from '../../src/measure/piece.js';
import type { Direction, Occurrence, Score } from '../../src/score/index.js';
import { TICKS } from './piece.js';

/** A mark: bar and beat from 1 (crotchets), in bars of four. */
export interface Mark {
  readonly bar: number;
  readonly beat?: number;
  readonly text: string;
  readonly kind?: Direction['kind'];
  readonly staff?: number;
  /** For hairpins: bar and beat at which it ends. */
  readonly until?: readonly [bar: number, beat: number];
}

/** The score with marks written into it; "<" and ">" are hairpins. */
export function marked(score: Score, ...marks: readonly Mark[]): Score {
  const at = (bar: number, beat: number): number => (score.bars[bar - 1]?.startTick ?? 0) + (beat - 1) * TICKS;
  const directions = marks.map(({ bar, beat = 1, text, kind, staff = 1, until }): Direction => ({
    kind: kind ?? (text === '<' ? 'crescendo' : text === '>' ? 'diminuendo' : 'dynamics'), barIndex: bar - 1, onsetTick: at(bar, beat),
    untilTick: until === undefined ? null : at(...until), staff, text, value: null,
  }));
  return { ...score, directions: [...score.directions, ...directions] };
}

/** The piece with every paired note struck as asked. */
export function struck(piece: Piece, velocityOf: (occurrence: Occurrence) => number): Piece {
  const { score, recording, alignment } = piece;
  const velocities = new Map(alignment.pairs.map(({ note, occurrence }) => {
    const written = score.occurrences[occurrence];
    return [note, written === undefined ? 64 : velocityOf(written)];
  }));
  return { ...piece, recording: { ...recording, notes: recording.notes.map((note) => ({ ...note, velocity: velocities.get(note.index) ?? note.velocity })) } };
}

/** Bar of the playing order, from 1, in bars of four crotchets. */
export function barOf({ onsetTick }: Occurrence): number {
  return 1 + Math.floor(onsetTick / (4 * TICKS));
}

/** Beat in its bar, from 1, in bars of four crotchets. */
export function beatOf({ onsetTick }: Occurrence): number {
  return 1 + (onsetTick / TICKS) % 4;
}
