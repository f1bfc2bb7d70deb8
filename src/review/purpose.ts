/** What a recording is for, guessed from how it was played. */
import { listInWords, timesInWords } from '../base/index.js';
import { playedByMarked, strandsOf, wentBack, type JudgeInput } from '../judge/index.js';
import type { Purpose, PurposeFound } from './types.js';

/** Below (<) this share of its marking a recording is slow practice: the character of a piece changes at 75 %. Common practice, no source. */
const SLOW = 0.75;

/** Below (<) this share a part of a piece is not yet polished: within a tenth is as marked. Common practice, no source. */
const UNDER = 0.9;

/** From (>=) this share of wrong and missed notes on the notes are still being read. */
const READING_SLIPS = 0.12;

/** Up to (<) this share the notes are learned. */
const LEARNED_SLIPS = 0.03;

/** Going back so often (>=) is working at a piece, not playing it through. */
const WORKING_RETURNS = 2;

/** A run-through reaches at least (>=) this share of the bars; going back once is still one. */
const THROUGH_SHARE = 0.8;

/** What speaks for one purpose or another. */
interface Signs {
  readonly slow: boolean;
  /** True under the marked tempo, slow or not. */
  readonly under: boolean;
  /** Share of wrong and missed notes, 0-1. */
  readonly slips: number;
  readonly returns: number;
  readonly handsAlone: boolean;
  readonly through: boolean;
}

/** Guesses what a recording is for. */
export function guessPurpose(input: JudgeInput): PurposeFound {
  const signs = signsOf(input);
  return { purpose: purposeFrom(signs), guessed: true, reason: reasonFrom(signs) };
}

/** The purpose that the signs speak for. Playing from memory leaves no sign: it has to be said. */
function purposeFrom({ slow, under, slips, returns, handsAlone, through }: Signs): Purpose {
  if (slips >= READING_SLIPS) return 'firstReading';
  if (slow || handsAlone || returns >= WORKING_RETURNS) return 'buildingUp';
  if (through) return 'runThrough';
  return slips < LEARNED_SLIPS && !under ? 'polishing' : 'buildingUp';
}

/** Reads the signs. */
function signsOf(input: JudgeInput): Signs {
  const { score, alignment, recording, measures } = input;
  const strands = strandsOf(score, alignment, recording.notes.map(({ onsetS }) => onsetS));
  const written = alignment.pairs.length + alignment.missed.length;
  const slips = alignment.missed.length + alignment.added.filter(({ instead, near }) => !instead && near !== null).length;
  const tempo = playedByMarked(measures.pulse.spans);
  const reached = new Set(strands.flatMap(({ fromVisit, toVisit }) => score.order.slice(fromVisit, toVisit + 1).map(({ barIndex }) => barIndex)));
  return {
    slow: tempo !== null && tempo < SLOW,
    under: tempo !== null && tempo < UNDER,
    slips: written === 0 ? 0 : slips / written,
    returns: strands.filter((_, i) => wentBack(strands, i)).length,
    handsAlone: strands.some(({ hands }) => hands !== 'both') && score.staves > 1,
    through: reached.size >= THROUGH_SHARE * score.bars.length,
  };
}

/** The signs as a clause. */
function reasonFrom({ slow, under, slips, returns, handsAlone, through }: Signs): string {
  const said = [
    slips >= READING_SLIPS ? 'many notes are still wrong or missing' : '',
    slow ? 'it is well under the marked tempo' : '',
    handsAlone ? 'one hand plays alone' : '',
    returns >= WORKING_RETURNS ? `it goes back ${timesInWords(returns)}` : '',
  ].filter((text) => text !== '');
  if (said.length > 0) return listInWords(said);
  if (!through) return `only a part of the piece is played${under ? ', under the marked tempo' : ''}`;
  return `the piece is played from beginning to end${returns > 0 ? ', going back once' : ''}`;
}
