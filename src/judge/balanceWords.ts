/** How a remark on balance is said: where, what was heard, what to do. */
import { handOf, type Hand } from '../measure/index.js';
import type { Untold } from './merge.js';
import { placesInWords, whereInWords } from './placeWords.js';
import type { FoundPlace, JudgeInput, Told } from './types.js';

/** From so many notes (>=) struck at once on, on average, a hand plays chords. */
const CHORD_NOTES = 1.8;

/** The sentences of one observation on balance. */
export function tellBalance(input: JudgeInput, { kind, hand, places }: Untold): Told {
  if (kind === 'chordsNotVoiced') {
    return { text: `${whereInWords(input, hand, places)}: the top notes of the chords are not heard over the others.`, advice: 'Play the top note alone with weight, then add the others underneath it, silently at first.' };
  }
  const loud = hand ?? 'left';
  if (kind === 'handsAlike') {
    return { text: `The tune stands hardly over its accompaniment, least in ${placesInWords(input, places)}.`, advice: `Play the ${loud} hand alone as softly as it will speak, then keep it there under the tune.` };
  }
  const chords = inChords(input, loud, places);
  const what = chords ? `${loud}-hand chords cover` : `${loud} hand covers`;
  const text = kind === 'coveredThroughout' ? `The ${what} the tune, most in ${placesInWords(input, places)}.` : `${whereInWords(input, null, places)}: the ${what} the tune.`;
  const other = loud === 'left' ? 'right' : 'left';
  return { text, advice: chords ? `Touch them silently while the ${other} hand sings, then add them pp.` : `Let the ${loud} hand only touch its keys while the ${other} hand sings, then add it pp.` };
}

/** True where the hand plays chords in these bars. */
function inChords({ score }: JudgeInput, hand: Hand, places: readonly FoundPlace[]): boolean {
  const notes = score.occurrences.filter((one) => handOf(one) === hand && places.some(({ fromBar, toBar }) => one.barIndex >= fromBar && one.barIndex <= toBar));
  return notes.length >= CHORD_NOTES * new Set(notes.map(({ onsetTick }) => onsetTick)).size;
}
