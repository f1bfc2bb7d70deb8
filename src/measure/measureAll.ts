import type { Analysis } from '../analysis/index.js';
import { barFacts } from './barFacts.js';
import { holdingFacts } from './holdings.js';
import { levelFacts } from './levels.js';
import { onsetDeviations } from './onsetDeviation.js';
import { pedalFacts } from './pedalFacts.js';
import type { Piece } from './piece.js';
import { pulseFacts } from './pulse.js';
import { pulseRuns } from './pulseAcrossWaits.js';
import { pulseLines } from './pulsePoints.js';
import { rhythmFacts } from './rhythmFacts.js';
import type { Measures } from './types.js';

/** What all measures are taken from: the piece, and what is known of it from the score alone. */
export interface MeasuredPiece extends Piece {
  readonly analysis: Analysis;
}

/**
 * All facts of one recording against one score.
 * @param piece with the alignment of this recording to this score, and the analysis of this score
 * @throws RangeError where the alignment names notes or bars that these two do not have
 */
export function measureAll(piece: MeasuredPiece): Measures {
  const lines = pulseLines(piece);
  const runs = pulseRuns(lines, piece.score.ticksPerQuarter);
  const onsets = onsetDeviations(piece, runs);
  const bars = barFacts(piece, onsets);
  return { onsets, bars, pulse: pulseFacts(piece, { bars, lines, runs }), holding: holdingFacts(piece, bars), rhythm: rhythmFacts(piece, { onsets, bars }), levels: levelFacts(piece, bars), pedal: pedalFacts(piece, bars) };
}
