/** Pieces for tests of pulse and tempo: signs put into small scores, and what was measured of a take. */
import { measureAll, type Measures } from '../../src/measure/index.js';
import type { Piece } from '../../src/measure/piece.js';
import type { Direction, Score } from '../../src/score/index.js';
import { analysed, TICKS } from './piece.js';

/** A tempo mark at a bar (from 1) and a beat in crotchets (from 1); crotchets a minute where its figure is printed. */
export function tempoMark(text: string, { bar = 1, beat = 1, value = null }: { readonly bar?: number; readonly beat?: number; readonly value?: number | null } = {}): Direction {
  return { kind: 'tempo', barIndex: bar - 1, onsetTick: (bar - 1) * 4 * TICKS + (beat - 1) * TICKS, untilTick: null, staff: 1, text, value };
}

/** A score with marks. */
export function marked(score: Score, ...directions: readonly Direction[]): Score {
  return { ...score, directions };
}

/** All facts of a take. */
export function measuredAll(piece: Piece): Measures {
  return measureAll(analysed(piece));
}
