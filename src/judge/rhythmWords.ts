import { word, type Language } from '../base/index.js';
import type { Untold } from './merge.js';
import { whereInWords, type Placing } from './placeWords.js';
import type { Told } from './types.js';

/** What was heard, as the end of a sentence, and what to do about it; a kind each. "the figure" stands for single places and many. */
interface Saying {
  readonly heard: string;
  readonly advice: string;
}

/** Values as words, from the one table. */
interface Values {
  readonly semiquavers: string;
  readonly quavers: string;
  readonly quaver: string;
  readonly crotchet: string;
}

/** The sentences of every kind but the hands'. */
function sayings({ semiquavers, quavers, quaver, crotchet }: Values): Readonly<Record<string, Saying>> {
  return {
    evenDots: { heard: 'the dotted pairs are even', advice: `Count four ${semiquavers} and place the short note on the last.` },
    tripletDots: { heard: 'the dotted pairs are played as a triplet', advice: `Count four ${semiquavers}, not three, and place the short note on the last.` },
    looseDoubleDots: { heard: 'the double dots are played short', advice: 'Hold the long note and let the short one go straight into the next beat.' },
    evenSnap: { heard: 'the short-long pairs are even', advice: 'Say the short note quickly, on the beat, and lean on the long one.' },
    overDotted: { heard: 'the dotted pairs are sharper than written', advice: 'A matter of choice; keep it the same throughout.' },
    longShort: { heard: 'equal notes are played long-short', advice: `Tap the ${quavers} first, each the same, then play to the tapping.` },
    shortLong: { heard: 'equal notes are played short-long', advice: `Tap the ${quavers} first, each the same, then play to the tapping.` },
    straight: { heard: `the ${quavers} are straight, and the heading asks for swing`, advice: 'Feel three to a beat: the first note takes two of them, the second one.' },
    quarteredTriplets: { heard: `the triplets come out as two ${semiquavers} and a ${quaver}`, advice: 'Say a word of three even syllables to each beat and play to it.' },
    squared: { heard: 'three against two is squared', advice: 'Tap it on the lid, both hands together, slowly, then play it to the same tapping.' },
    evenLongShort: { heard: `${crotchet} and ${quaver} are even`, advice: `Count three ${quavers} to the beat and give the long note two.` },
    longNoteCut: { heard: 'the long note is cut and the next one comes early', advice: 'Count its beats aloud.' },
    longNoteDoubled: { heard: 'the long note is held too long, and this hand comes in late', advice: 'Count its beats aloud to the other hand.' },
    restSwallowed: { heard: 'the rest is swallowed and the entry comes early', advice: 'Count through the rest and breathe in it.' },
    entryLate: { heard: 'the entry after the rest comes late', advice: 'Count through the rest, and be over the keys before it ends.' },
    unevenRun: { heard: 'the run is uneven', advice: 'Play it slowly in dotted rhythms, both ways round, then evenly.' },
  };
}

/** Words of one kind. */
function sayingOf(kind: string, language: Language): Saying | undefined {
  const plural = (name: 'semiquaver' | 'quaver'): string => `${word(name, language)}s`;
  return sayings({ semiquavers: plural('semiquaver'), quavers: plural('quaver'), quaver: word('quaver', language), crotchet: word('crotchet', language) })[kind];
}

/** The sentences of an observation: where and what was heard, then what to do. */
export function tellRhythm(placing: Placing, untold: Untold): Told {
  const { kind, hand, places } = untold;
  if (kind === 'behind') {
    const other = hand === 'left' ? 'right' : 'left';
    const which = hand ?? 'left';
    return { text: `${whereInWords(placing, which, places)}: behind the ${other}.`, advice: `Play the notes that fall together alone, slowly, and listen for one sound; then add the rest.` };
  }
  const { heard, advice } = sayingOf(kind, placing.language) ?? noSaying(kind);
  return { text: `${whereInWords(placing, hand, places)}: ${heard}.`, advice };
}

/** Every kind that is found is worded. */
function noSaying(kind: string): never {
  throw new RangeError(`rhythm has no words for ${kind}`);
}
