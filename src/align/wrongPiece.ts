/**
 * The question: is this recording of this score at all?
 * Method: a stretch is clear where few of its notes are missed and few strange ones stand between them. Of a right recording
 * 0.85 of the presses and more lie in clear stretches (66 recordings of professionals and pupils), of another piece at most 0.07
 * (609 crossed pairs and excerpts): chance hits come with holes and strays all around. One hand's bar played over and over is clear as
 * well, though every jump back costs the follower nearly all that the bar earns. A good path saves what has no clear stretch.
 * Our own rule.
 */
import { InputError } from '../base/index.js';
import type { Alignment } from './types.js';

/** A stretch is clear with so many pairs and, for each of them, at most so many notes missed and presses added. */
const CLEAR_PAIRS = 4;
const MOST_MISSED = 0.4;
const MOST_STRAY = 0.3;
/** Share of the presses paired in clear stretches from which (>=) the piece is this one. */
const LEAST_CLEAR = 0.2;
/** Worth of the path for each press from which (>=) it is this one in any case; another piece reaches 0.45 at the most. */
const SURE_WORTH = 0.5;
/** Fewer presses than this are a bar or less: too thin to say that they belong elsewhere. */
const LEAST_PRESSES = 12;

function pairsInClearStretches(alignment: Alignment): number {
  const count = (list: readonly { readonly stretch: number | null }[]): number[] => {
    const counts = alignment.route.map(() => 0);
    for (const { stretch } of list) if (stretch !== null) counts[stretch] = (counts[stretch] ?? 0) + 1;
    return counts;
  };
  const [missed, added] = [count(alignment.missed), count(alignment.added)];
  return count(alignment.pairs)
    .filter((pairs, s) => pairs >= CLEAR_PAIRS && (missed[s] ?? 0) <= MOST_MISSED * pairs && (added[s] ?? 0) <= MOST_STRAY * pairs)
    .reduce((sum, pairs) => sum + pairs, 0);
}

/**
 * @param worth of the follower's path, in right notes
 * @param presses key presses of the recording
 * @throws InputError `wrong-piece`
 */
export function refuseWrongPiece(alignment: Alignment, worth: number, presses: number): void {
  if (presses < LEAST_PRESSES || worth >= SURE_WORTH * presses || pairsInClearStretches(alignment) >= LEAST_CLEAR * presses) return;
  throw new InputError('wrong-piece', 'The recording does not follow this score: hardly any of it can be matched. Is it another piece, or another part of a longer one?');
}
