/**
 * The question: is the keyboard transposed?
 * Method: three-note groups of the recording are looked up in the score at every shift up to two octaves; the shift that
 * finds most is tried against none by following the score with both. Our own rule.
 */
import { tripleOf, TRIPLE_STEP, type TripleIndex } from './landings.js';

/** Largest shift looked for, semitones either way. */
const MAX_SHIFT = 24;
/** Groups of the recording that are looked up at the most. */
const SAMPLE = 1500;

/** The shift (semitones played above written) at which most three-note groups of the recording are written; 0 on a tie. */
export function likelyShift(index: TripleIndex, keys: readonly number[]): number {
  const stride = Math.max(1, Math.floor((keys.length - 2) / SAMPLE));
  const triples: number[] = [];
  for (let i = 0; i + 2 < keys.length; i += stride) triples.push(tripleOf(keys[i] ?? 0, keys[i + 1] ?? 0, keys[i + 2] ?? 0));
  const found = (shift: number): number => triples.filter((triple) => index.has(triple - shift * TRIPLE_STEP)).length;
  let best = { shift: 0, count: found(0) };
  for (let size = 1; size <= MAX_SHIFT; size += 1) {
    for (const shift of [size, -size]) {
      const count = found(shift);
      if (count > best.count) best = { shift, count };
    }
  }
  return best.shift;
}
