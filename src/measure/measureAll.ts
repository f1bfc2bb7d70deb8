import type { Alignment } from '../align/index.js';
import type { Recording } from '../recording/index.js';
import type { Score } from '../score/index.js';
import { barFacts } from './barFacts.js';
import { onsetDeviations } from './onsetDeviation.js';
import type { Measures } from './types.js';

/**
 * All facts of one recording against one score.
 * @param alignment of this recording to this score
 * @throws RangeError where the alignment names notes or bars that these two do not have
 */
export function measureAll(score: Score, recording: Recording, alignment: Alignment): Measures {
  const piece = { score, recording, alignment };
  const onsets = onsetDeviations(piece);
  return { onsets, bars: barFacts(piece, onsets) };
}
