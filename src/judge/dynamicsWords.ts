/** How a remark on loud and soft is said: where, what was heard, what to do. */
import { word } from '../base/index.js';
import { barNames } from '../score/index.js';
import type { LevelChange } from '../measure/index.js';
import { noteInWords } from './noteNames.js';
import { HEARD_UNITS } from './levelGround.js';
import type { Untold } from './merge.js';
import { placesInWords, whereInWords } from './placeWords.js';
import type { JudgeInput, Told } from './types.js';

/** The sentences of one observation on dynamics. */
export function tellDynamics(input: JudgeInput, untold: Untold, changes: readonly LevelChange[]): Told {
  if (untold.kind === 'changeNotMade') return tellChange(input, untold, changes);
  if (untold.kind === 'hairpinNotMade') return tellHairpin(input, untold);
  if (untold.kind === 'sticksOut') return tellNote(input, untold);
  if (untold.kind === 'oneLevel') return { text: `Loud and soft are nearly the same from beginning to end, also where ${placesInWords(input, untold.places)} ${untold.places.length > 1 ? 'ask' : 'asks'} for more or less.`, advice: `Choose the loudest and the softest ${word('bar', input.language)} first, and play these two one after the other.` };
  const where = whereInWords(input, untold.hand, untold.places);
  if (untold.kind === 'endBumped') return tellEnding(where, untold);
  if (untold.kind === 'phrasesFlat') return { text: `The phrases of the tune stay on one level, most of all in ${placesInWords(input, untold.places)}.`, advice: 'Sing each one, then let it grow to its high point and fall away to its end.' };
  if (untold.kind === 'didNotSpeak') return { text: `${where}: soft inner notes did not speak.`, advice: 'Press them slowly to the bottom of the key, all of one chord together.' };
  if (untold.kind === 'splitNote') return { text: `${where}: neighbouring keys were struck along.`, advice: 'Set the fingers on the keys before they play.' };
  return { text: `${where}: the sforzando is no louder than the notes beside it.`, advice: 'Lighten the notes before it, then lean into it.' };
}

/** "Bar 17 is as loud as bar 16, where p is marked." Several are told by what they have in common. */
function tellChange(input: JudgeInput, untold: Untold, changes: readonly LevelChange[]): Told {
  const { places, hand } = untold;
  const asked = places.flatMap(({ startS }) => changes.filter((change) => change.startS === startS));
  const directions = new Set(asked.map(({ louder }) => louder));
  const [change] = asked;
  if (new Set(places.map(({ fromBar }) => fromBar)).size > 1 || change === undefined) {
    const heard = directions.size > 1 ? 'the marked changes of level are hardly heard' : directions.has(true) ? 'the louder marks are no louder than what comes before' : 'the softer marks are as loud as what comes before';
    return { text: `${whereInWords(input, hand, places)}: ${heard}.`, advice: directions.size > 1 ? 'Play the last beat before each mark and the first one under it, to and fro, until the difference is plain.' : adviceFor(directions.has(true)) };
  }
  if (change.echo) return { text: `${whereInWords(input, hand, places)}: the echo is ${comparison(untold, change)} what it repeats.`, advice: adviceFor(false) };
  const whose = hand === null ? '' : ` in the ${hand} hand`;
  return { text: `${whereInWords(input, null, places)} is ${comparison(untold, change)} ${before(input, untold, change)}${whose}, where ${change.to} is marked.`, advice: adviceFor(change.louder) };
}

/** What to do for a change that is not made. */
function adviceFor(louder: boolean): string {
  return louder ? 'Keep the sound back before it, and begin it with more weight, without hurrying.' : 'Begin it softer than feels necessary, without slowing.';
}

/** "as loud as", "softer than" where the level went the other way by what is heard. */
function comparison({ measured }: Untold, { louder }: LevelChange): string {
  const contrary = measured.value <= -HEARD_UNITS;
  if (louder) return contrary ? 'softer than' : 'no louder than';
  return contrary ? 'louder than' : 'as loud as';
}

/** What a change is held against: the bar before, or what led to it. */
function before(input: JudgeInput, { places }: Untold, { kind }: LevelChange): string {
  const bar = places[0]?.fromBar ?? 0;
  return bar > 0 && kind === 'sudden' ? barNames(input.score, input.language).long(bar - 1) : 'what comes before';
}

/** "Bars 5–8: the crescendo does not grow." */
function tellHairpin(input: JudgeInput, { hand, places, topic, measured }: Untold): Told {
  const growing = topic === 'crescendo';
  const contrary = measured.value <= -2 * measured.threshold;
  const heard = growing ? (contrary ? 'gets softer instead' : 'does not grow') : contrary ? 'gets louder instead' : 'does not fade';
  const advice = growing ? 'Start it softer than you think, and let the last notes be the loudest.' : 'Let every note be a little less than the one before, to the end of the sign.';
  return { text: `${whereInWords(input, hand, places)}: the ${topic} ${heard}.`, advice };
}

/** "Right hand, bar 4: the end of the phrase is bumped." */
function tellEnding(where: string, { places, topic }: Untold): Told {
  const ends = places.length > 1 ? `the ends of the ${topic}s are` : `the end of the ${topic} is`;
  return { text: `${where}: ${ends} bumped.`, advice: 'Let the hand come up with the last note, and make it the lightest.' };
}

/** "Right hand, bar 6: the E sticks out." */
function tellNote(input: JudgeInput, { hand, places }: Untold): Told {
  const where = whereInWords(input, hand, places);
  const note = places.length === 1 && places[0]?.notes.length === 1 ? input.score.notes[places[0].notes[0] ?? -1] : undefined;
  const what = note === undefined ? 'single notes stick out of the line' : `the ${noteInWords({ step: note.pitch.step, alter: note.pitch.alter })} sticks out`;
  const advice = note === undefined ? 'Play the line slowly, each note no louder than the one before, then at speed.' : 'Play the notes around it slowly, listening for one even line.';
  return { text: `${where}: ${what}.`, advice };
}
