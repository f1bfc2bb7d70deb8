/** Every sentence about rhythm. */
import { word, type Language, type TradeWordName } from '../base/index.js';
import { squaredInWords } from './rhythmCrossWords.js';
import type { Untold } from './merge.js';
import { whereInWords, type Placing } from './placeWords.js';
import type { Told } from './types.js';

/** What was heard, as the end of a sentence, and what to do about it. */
interface Saying {
  readonly heard: string;
  readonly advice: string;
}

/** A word of the trade, and its plural. */
interface Values {
  readonly one: (name: TradeWordName) => string;
  readonly more: (name: TradeWordName) => string;
}

/** Names of values by their length in crotchets. */
const VALUE_NAMES: ReadonlyMap<number, TradeWordName> = new Map([
  [0.25, 'semiquaver'], [0.5, 'quaver'], [0.75, 'dottedQuaver'], [1, 'crotchet'], [1.5, 'dottedCrotchet'], [2, 'minim'], [3, 'dottedMinim'], [4, 'semibreve'],
]);

/** Counting a bar out, the advice for wrong lengths. */
const COUNT_OUT = 'Count aloud and clap it, then play to the counting.';

/** The sentences of every kind that has only one. */
function sayings({ one, more }: Values): Readonly<Record<string, Saying>> {
  return {
    evenDots: { heard: 'the dotted pairs are even', advice: `Count four ${more('semiquaver')} and place the short note on the last.` },
    tripletDots: { heard: 'the dotted pairs come out as triplets', advice: `Count four ${more('semiquaver')}, not three, and place the short note on the last.` },
    looseDoubleDots: { heard: 'the short note after the double dot comes too soon', advice: 'Hold the long note and let the short one go straight into the next beat.' },
    evenSnap: { heard: 'the short-long pairs are even', advice: 'The short note is on the beat and quick; lean on the long one.' },
    overDotted: { heard: 'the dotted pairs are sharper than written', advice: 'That is a matter of choice; keep it the same throughout.' },
    straight: { heard: `the ${more('quaver')} are straight, where the heading asks for swing`, advice: 'Feel three to a beat: the first note takes two of them, the second one.' },
    quarteredTriplets: { heard: `the triplets come out as two ${more('semiquaver')} and a ${one('quaver')}`, advice: 'Say a word of three even syllables to each beat and play to it.' },
    evenLongShort: { heard: `${one('crotchet')} and ${one('quaver')} are even`, advice: `Count three ${more('quaver')} to the beat and give the long note two.` },
    longNoteCut: { heard: 'the long note is cut and what follows comes early', advice: 'Count its beats aloud.' },
    longNoteDoubled: { heard: 'the long note lasts too long and what follows comes late', advice: 'Count its beats aloud, with the other hand.' },
    restSwallowed: { heard: 'the rest is swallowed and the entry comes early', advice: 'Count through the rest.' },
    entryLate: { heard: 'the entry after the rest comes late', advice: 'Count through the rest, and be over the keys before it ends.' },
    beatAdded: { heard: 'there is a beat too many', advice: 'Count the bar aloud.' },
    raggedChords: { heard: 'the chords do not speak together', advice: 'Shape the hand over the keys first, then let the arm drop into all of them at once.' },
    longGrace: { heard: 'the crushed note is too long', advice: 'Play it and the main note almost together, then a little apart.' },
    unevenTrill: { heard: 'the trill is uneven', advice: 'Fewer strokes, counted: four to a beat, then six, then eight, with the weight in the wrist.' },
    stoppedTrill: { heard: 'the trill stops on the way', advice: 'Fewer strokes, counted, and light: begin slowly and let it quicken.' },
    unevenTurn: { heard: 'the small notes of the turn are not alike', advice: 'Play them as four equal notes, slowly, then nearer to the next.' },
    longUpbeat: { heard: `the ${one('upbeat')} is as long as a beat of its own`, advice: `Count a ${one('bar')} before you begin, and come in on the last part of it.` },
    unevenRun: { heard: 'the run is uneven', advice: 'Play it slowly in dotted rhythms, both ways round, then evenly.' },
  };
}

/** Notes of a single dotted pair. */
const PAIR = 2;

/** Words of one kind. */
function sayingOf({ kind, topic, places }: Untold, language: Language): Saying {
  const one = (name: TradeWordName): string => word(name, language);
  const more = (name: TradeWordName): string => `${one(name)}s`;
  if (kind === 'halved' || kind === 'doubled') return { heard: wrongLength(Number(topic), kind === 'halved' ? 0.5 : 2, more), advice: COUNT_OUT };
  if (kind === 'longShort' || kind === 'shortLong') return limping(kind === 'longShort' ? 'long-short' : 'short-long', VALUE_NAMES.get(Number(topic)), more);
  if (kind === 'squared') return squaredInWords(topic);
  const saying = sayings({ one, more })[kind];
  if (saying === undefined) throw new RangeError(`rhythm has no words for ${kind}`);
  return kind === 'evenDots' && places.flatMap(({ notes }) => notes).length === PAIR ? { ...saying, heard: 'the dotted pair is even' } : saying;
}

/** "the semiquavers limp, long-short". */
function limping(how: string, value: TradeWordName | undefined, more: Values['more']): Saying {
  const name = value === undefined ? 'equal notes' : `the ${more(value)}`;
  return { heard: `${name} limp, ${how}`, advice: `Tap ${value === undefined ? 'them' : name} first, each the same, then play to the tapping.` };
}

/** "crotchets are played as quavers". */
function wrongLength(crotchets: number, times: number, more: Values['more']): string {
  const [written, heard] = [VALUE_NAMES.get(crotchets), VALUE_NAMES.get(crotchets * times)];
  const often = times < 1 ? 'half' : 'twice';
  return written === undefined || heard === undefined ? `some notes are ${often} as long as written` : `some ${more(written)} are played as ${more(heard)}`;
}

/** The sentences of an observation: where and what was heard, then what to do. */
export function tellRhythm(placing: Placing, untold: Untold): Told {
  const { kind, hand, places } = untold;
  if (kind === 'behind') {
    const text = `${whereInWords(placing, hand, places)}: behind the ${hand === 'right' ? 'left' : 'right'}.`;
    return { text, advice: 'Play only the notes that fall together, slowly, and listen for one sound; then add the rest.' };
  }
  const { heard, advice } = sayingOf(untold, placing.language);
  return { text: `${whereInWords(placing, hand, places)}: ${heard}.`, advice };
}
