/** Cross-rhythms in words: their names, and the order in which the hands strike. */
import { crossGrid } from '../analysis/index.js';
import { countInWords, listInWords } from '../base/index.js';

/** Up to so many strokes (<=) the order of the hands is said; beyond, nobody remembers it. */
const MOST_STROKES = 6;

/** "three against two", the greater number first, whichever hand has it. */
export function againstInWords(ratio: readonly number[]): string {
  return [...ratio].sort((a, b) => b - a).map(countInWords).join(' against ');
}

/**
 * What was heard of a squared cross-rhythm, and what to do.
 * @param topic its ratio, right hand then left: "3:2"
 * @throws RangeError for a topic that is no ratio
 */
export function squaredInWords(topic: string): { readonly heard: string; readonly advice: string } {
  const ratio = topic.split(':').map(Number);
  const [right = 0, left = 0] = ratio;
  if (ratio.length !== 2) throw new RangeError(`no cross-rhythm: ${topic}`);
  return { heard: `${againstInWords(ratio)} is squared, with notes struck together that should come in turn`, advice: adviceFor(right, left) };
}

/** The order of the hands where it is short enough to say, else each hand by itself. */
function adviceFor(right: number, left: number): string {
  const { slots, onsets } = crossGrid(right, left);
  if (onsets.length > MOST_STROKES) return 'Play each hand alone to the beat until it runs by itself; then put them together, listening to the beats only.';
  const order = onsets.map((onset) => {
    const [inRight, inLeft] = [onset % (slots / right) === 0, onset % (slots / left) === 0];
    return inRight && inLeft ? 'together' : inRight ? 'right' : 'left';
  });
  return `Tap it slowly on the lid, ${listInWords(order).replace(' and ', ', ')}; then play it to the same tapping.`;
}
