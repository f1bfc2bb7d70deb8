/**
 * The question: is this recording of this score at all?
 * Method: a right recording earns most of a hit for each press (professionals and pupils alike 0.7 and more, measured over
 * 105 recordings), another piece next to nothing (at most 0.25 over 130 crossed pairs): chance hits are eaten up by
 * skips, jumps and strays. A long stretch that is played through saves a recording with much beside it. Our own rule.
 */
import { InputError } from '../base/index.js';
import type { Alignment } from './types.js';

/** Worth of the path for each press below which the piece is another one: midway between the two. */
const LEAST_WORTH = 0.4;
/** A stretch of so many pairs, with at most these shares missed and strayed, is this piece whatever else was played. */
const SURE_PAIRS = 40;
const MOST_MISSED = 0.3;
const MOST_STRAY = 0.2;

function hasSureStretch(alignment: Alignment): boolean {
  return alignment.route.some(({ index }) => {
    const here = (list: readonly { readonly stretch: number | null }[]): number => list.filter((one) => one.stretch === index).length;
    const pairs = here(alignment.pairs);
    return pairs >= SURE_PAIRS && here(alignment.missed) <= MOST_MISSED * pairs && here(alignment.added) <= MOST_STRAY * pairs;
  });
}

/**
 * @param worth of the follower's path, in right notes
 * @param presses key presses of the recording
 * @throws InputError `wrong-piece`
 */
export function refuseWrongPiece(alignment: Alignment, worth: number, presses: number): void {
  if (worth >= LEAST_WORTH * presses || hasSureStretch(alignment)) return;
  throw new InputError('wrong-piece', 'The recording does not follow this score: hardly any of it can be matched. Is it another piece, or another part of a longer one?');
}
