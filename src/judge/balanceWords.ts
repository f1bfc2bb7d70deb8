/** How a remark on balance is said: where, what was heard, what to do. */
import type { Untold } from './merge.js';
import { placesInWords, whereInWords } from './placeWords.js';
import type { JudgeInput, Told } from './types.js';

/** The sentences of one observation on balance. */
export function tellBalance(input: JudgeInput, { kind, hand, places }: Untold): Told {
  if (kind === 'chordsNotVoiced') return { text: 'In the right-hand chords the top note is not heard over the others.', advice: 'Play the top note alone with weight, then add the others underneath it, silently at first.' };
  if (kind === 'handsAlike' || kind === 'coveredThroughout') {
    const heard = kind === 'handsAlike' ? 'The tune stands hardly over its accompaniment, least' : `The ${hand ?? 'other'} hand covers the tune, most`;
    return { text: `${heard} in ${placesInWords(input, places)}.`, advice: `Play the ${hand ?? 'other'} hand alone as softly as it will speak, then keep it there under the tune.` };
  }
  const other = hand === 'left' ? 'right' : 'left';
  return {
    text: `${whereInWords(input, null, places)}: the ${hand ?? 'other'} hand covers the tune.`,
    advice: `Touch the ${hand ?? 'other'} hand silently on the keys while the ${other} hand sings, then add it pp.`,
  };
}
