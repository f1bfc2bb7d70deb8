/** Lengths in words: where, what was heard, what to do. */
import { word } from '../base/index.js';
import { noteInWords } from './noteNames.js';
import { whereInWords } from './placeWords.js';
import type { Untold } from './merge.js';
import type { JudgeInput, Told } from './types.js';

/** Up to these shares (<=), per cent, a note is let go at once, or after a quarter, a third of its length; above, half. */
const AT_ONCE = 12;
const A_QUARTER = 28;
const A_THIRD = 40;

/** The sentences of one observation. */
export function tellLengths(input: JudgeInput, untold: Untold): Told {
  const where = whereInWords(input, untold.hand, untold.places);
  const several = untold.places.length > 1;
  switch (untold.kind) {
    case 'shortNote': return { text: `${where}: the long note${several ? 's are' : ' is'} let go ${whenInWords(untold.measured.value, several)}.`, advice: `Count ${several ? 'each of them' : 'it'} to the end, and let go on the next number.` };
    case 'tieBroken': return { text: `${where}: the tied ${several ? 'notes are' : `${nameOf(input, untold)} is`} let go before the tie is over.`, advice: 'Keep the key down across, and count the second note aloud.' };
    case 'innerLetGo': return { text: `${where}: one note of the long chords goes while the others stay.`, advice: 'Play the chord, wait, and feel every finger on its key before you move on.' };
    case 'tieStruckAgain': return { text: `${where}: the tied ${several ? 'notes are' : `${nameOf(input, untold)} is`} played again.`, advice: `Hold ${several ? 'them' : 'it'}, and say "hold" where the second note stands.` };
    case 'pedalInRest': return { text: `${where}, both hands: the pedal sounds on through the rest${several ? 's' : ''}.`, advice: 'Hands and foot off together.' };
    default: return { text: `${withHands(where, untold)}: the keys stay down through the rest${several ? 's' : ''}.`, advice: `Lift on the rest, and breathe with it; count the ${word('bar', input.language)} aloud.` };
  }
}

/** "Bar 8, both hands" where both rest. */
function withHands(where: string, { hand }: Untold): string {
  return hand === null ? `${where}, both hands` : where;
}

/** "almost at once", "after about a third of its length". */
function whenInWords(percent: number, several: boolean): string {
  if (percent <= AT_ONCE) return 'almost at once';
  const share = percent <= A_QUARTER ? 'a quarter' : percent <= A_THIRD ? 'a third' : 'half';
  return `after about ${share} of ${several ? 'their' : 'its'} length`;
}

/** Name of the note that it is about. */
function nameOf({ score }: JudgeInput, { places }: Untold): string {
  const pitch = score.notes[places[0]?.notes[0] ?? -1]?.pitch;
  return pitch === undefined ? 'note' : noteInWords(pitch);
}
