/** How a remark on loud and soft is said: where, what was heard, what to do. */
import { word } from '../base/index.js';
import { barNames } from '../score/index.js';
import type { LevelChange } from '../measure/index.js';
import { noteInWords } from './noteNames.js';
import type { Untold } from './merge.js';
import { whereInWords } from './placeWords.js';
import type { JudgeInput, Told } from './types.js';

/** The sentences of one observation on dynamics. */
export function tellDynamics(input: JudgeInput, untold: Untold, changes: readonly LevelChange[]): Told {
  if (untold.kind === 'changeNotMade') return tellChange(input, untold, changes);
  if (untold.kind === 'hairpinNotMade') return tellHairpin(input, untold);
  if (untold.kind === 'sticksOut') return tellNote(input, untold);
  if (untold.kind === 'oneLevel') return { text: `Loud and soft are nearly the same from beginning to end.`, advice: `Choose the loudest and the softest ${word('bar', input.language)} first, and play these two one after the other.` };
  const where = whereInWords(input, untold.hand, untold.places);
  return { text: `${where}: the sforzando is no louder than the notes beside it.`, advice: 'Lighten the notes before it, then lean into it.' };
}

/** "Bar 17 is as loud as bar 16, where p is marked." */
function tellChange(input: JudgeInput, untold: Untold, changes: readonly LevelChange[]): Told {
  const softer = untold.topic === 'softer';
  const advice = softer ? 'Begin it softer than feels necessary, without slowing.' : 'Keep the sound back before it, and begin it with more weight, without hurrying.';
  const [place, ...others] = untold.places;
  const change = changes.find(({ startS }) => startS === place?.startS);
  const hand = untold.hand === null ? '' : `, ${untold.hand} hand`;
  if (others.length > 0 || place === undefined || change === undefined) {
    const marks = softer ? 'the softer marks are as loud as what comes before' : 'the louder marks are no louder than what comes before';
    return { text: `${whereInWords(input, untold.hand, untold.places)}: ${marks}.`, advice };
  }
  const names = barNames(input.score, input.language);
  const before = place.fromBar > 0 && change.kind !== 'reached' ? names.long(place.fromBar - 1) : 'what comes before';
  const heard = untold.measured.value <= -untold.measured.threshold && untold.measured.value < -2 ? `is ${softer ? 'louder' : 'softer'} than ${before}` : softer ? `is as loud as ${before}` : `is no louder than ${before}`;
  return { text: `${whereInWords(input, null, untold.places)}${hand} ${heard}, where ${change.to} is marked.`, advice };
}

/** "Bars 5–8: the crescendo does not grow." */
function tellHairpin(input: JudgeInput, { hand, places, topic, measured }: Untold): Told {
  const growing = topic === 'crescendo';
  const contrary = measured.value <= -2 * measured.threshold;
  const heard = growing ? (contrary ? 'gets softer instead' : 'does not grow') : contrary ? 'gets louder instead' : 'does not fade';
  const advice = growing ? 'Start it softer than you think, and let the last notes be the loudest.' : 'Let every note be a little less than the one before, to the end of the sign.';
  return { text: `${whereInWords(input, hand, places)}: the ${topic} ${heard}.`, advice };
}

/** "Right hand, bar 6: the E sticks out." */
function tellNote(input: JudgeInput, { hand, places }: Untold): Told {
  const where = whereInWords(input, hand, places);
  const note = places.length === 1 && places[0]?.notes.length === 1 ? input.score.notes[places[0].notes[0] ?? -1] : undefined;
  const what = note === undefined ? 'single notes stick out of the line' : `the ${noteInWords({ step: note.pitch.step, alter: note.pitch.alter })} sticks out`;
  const advice = note === undefined ? 'Play the line slowly, each note no louder than the one before, then at speed.' : 'Play the notes around it slowly, listening for one even line.';
  return { text: `${where}: ${what}.`, advice };
}
