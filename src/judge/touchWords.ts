/** Touch in words: where, what was heard, what to do. */
import { isHabit } from './lapses.js';
import type { Untold } from './merge.js';
import { whereInWords } from './placeWords.js';
import { dotTrials, type Dot } from './touchDots.js';
import type { SlurJoin } from './touchSlurs.js';
import type { JudgeInput, Told } from './types.js';

/** From this share (>=) of all on, it is said to be so all through. Our own rule. */
const THROUGHOUT = 0.6;

/** From this share (>=), per cent, dots last "nearly their full length". */
const NEARLY_FULL = 80;

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
  switch (untold.kind) {
    case 'staccatoLong': return tellDots(dotTrials(dots, hand), { where, hand, value: untold.measured.value });
    case 'slurBroken': return tellSlurs(joins.filter((join) => join.hand === hand), { where, hand, value: untold.measured.value });
    case 'portatoShort': return { text: `${where}: the dots under the slur are as short as plain dots.`, advice: 'Carry each one for most of its length, then lift; the arm goes on as if it were one slur.' };
    case 'portatoJoined': return { text: `${where}: the dots under the slur run into each other.`, advice: 'Press each note warmly and let go just before the next.' };
    case 'tenutoShort': return { text: `${where}: the notes with a line are let go early.`, advice: 'Lean on each of them and stay to its end.' };
    case 'figureUnlike': return tellFigure(where, untold);
    case 'noBreath': return { text: `${where}: no breath is taken where it is marked.`, advice: 'Lift both hands there as a singer would, and start anew.' };
    case 'slurEndJoined': return { text: `${where}: the two-note slurs run on into what follows.`, advice: 'Down on the first, up with the second: let the wrist lift it off.' };
    default: return { text: `${sentence(hand)}: the long chords are let go after ${untold.measured.value <= LESS_THAN_HALF ? 'less than half' : 'about half'} of their length.`, advice: 'Stay on the keys until the next chord, and move late and close to them.' };
  }
}

/** One figure with two touches: between the hands, or at one of its returns. */
function tellFigure(where: string, { hand, topic }: Untold): Told {
  if (topic !== 'hands') return { text: `${where}: the figure is ${topic} here, ${topic === 'joined' ? 'detached' : 'joined'} elsewhere.`, advice: 'Choose one touch for it, and keep it wherever it returns.' };
  return { text: `${where}: the figure is detached, and joined in the ${hand === 'left' ? 'right' : 'left'} hand.`, advice: 'Choose one touch for it; play it with one hand, then the other, until they match.' };
}

/** Where it is, and which hand. */
interface Spot {
  readonly where: string;
  readonly hand: string;
  /** Measured share, per cent. */
  readonly value: number;
}

/** Dots that are long: all of them, now and then, or in one place. */
function tellDots(dots: readonly Dot[], { where, hand, value }: Spot): Told {
  const covered = dots.filter(({ bad }) => bad).every(({ pedalled }) => pedalled) ? ' by the keys, though the pedal covers it' : '';
  const long = `the dots last ${value >= NEARLY_FULL ? 'nearly their full length' : 'about two thirds of their length'}${covered}`;
  if (badShare(dots) >= THROUGHOUT) return { text: `${where}: ${long}.`, advice: `Short ${hand} hand alone: off the key as soon as it sounds.` };
  if (isHabit(dots)) return { text: `${where}: ${long}; others are short.`, advice: 'One touch for all of them: off the key as soon as it sounds.' };
  return { text: `${where}: ${long}; elsewhere they are short.`, advice: 'Match them to the ones that are short.' };
}

/** Lines under slurs that are broken: all of them, or in one place. */
function tellSlurs(joins: readonly SlurJoin[], { where, hand }: Spot): Told {
  const broken = 'the notes under the slurs are detached';
  if (badShare(joins) >= THROUGHOUT) return { text: `${where}: ${broken}.`, advice: `Let each key up only when the next is down; ${hand} hand alone, slowly, and listen across.` };
  return { text: `${where}: ${broken}; elsewhere they are joined.`, advice: 'Let each key up only when the next is down.' };
}

/** "Left hand". */
function sentence(hand: string): string {
  return `${hand.charAt(0).toUpperCase()}${hand.slice(1)} hand`;
}

/** Share that was done badly. */
function badShare(trials: readonly (Dot | SlurJoin)[]): number {
  return trials.length === 0 ? 0 : trials.filter(({ bad }) => bad).length / trials.length;
}
