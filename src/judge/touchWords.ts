/** Touch in words: where, what was heard, what to do. */
import type { Untold } from './merge.js';
import { whereInWords } from './placeWords.js';
import type { Dot } from './touchDots.js';
import type { SlurJoin } from './touchSlurs.js';
import type { JudgeInput, Told } from './types.js';

/** From this share (>=) of all on, it is said to be so all through. Our own rule. */
const THROUGHOUT = 0.6;

/** Up to this share (<=), per cent, chords are let go at "less than half". */
const LESS_THAN_HALF = 44;

/** What the words lean on. */
interface Heard {
  readonly dots: readonly Dot[];
  readonly joins: readonly SlurJoin[];
}

/** The sentences of one observation. */
export function tellTouch(input: JudgeInput, untold: Untold, { dots, joins }: Heard): Told {
  const where = whereInWords(input, untold.hand, untold.places);
  const hand = untold.hand ?? 'right';
  const all = (some: readonly (Dot | SlurJoin)[]): boolean => badShare(some.filter((one) => one.hand === hand)) >= THROUGHOUT;
  switch (untold.kind) {
    case 'staccatoLong': return all(dots)
      ? { text: `${sentence(hand)}: the dots last nearly their full length, most of all in ${lowered(input, untold)}.`, advice: `Short ${hand} hand alone: off the key as soon as it sounds.` }
      : { text: `${where}: the dots last nearly their full length; elsewhere they are short.`, advice: 'Match them to the ones that are short.' };
    case 'slurBroken': return all(joins)
      ? { text: `${sentence(hand)}: the notes under the slurs are detached, most of all in ${lowered(input, untold)}.`, advice: 'Let each key up only when the next is down; slowly, and listen across.' }
      : { text: `${where}: the notes under the slur are detached.`, advice: 'Let each key up only when the next is down.' };
    case 'slurEndJoined': return { text: `${where}: the two-note slurs run on into what follows.`, advice: 'Down on the first, up with the second: let the wrist lift it off.' };
    default: return { text: `${sentence(hand)}: the long chords are let go after ${untold.measured.value <= LESS_THAN_HALF ? 'less than half' : 'about half'} of their length.`, advice: 'Stay on the keys until the next chord, and move late and close to them.' };
  }
}

/** "Left hand". */
function sentence(hand: string): string {
  return `${hand.charAt(0).toUpperCase()}${hand.slice(1)} hand`;
}

/** The places inside a sentence. */
function lowered(input: JudgeInput, { places }: Untold): string {
  const where = whereInWords(input, null, places);
  return where.charAt(0).toLowerCase() + where.slice(1);
}

/** Share that was done badly. */
function badShare(trials: readonly (Dot | SlurJoin)[]): number {
  return trials.length === 0 ? 0 : trials.filter(({ bad }) => bad).length / trials.length;
}
