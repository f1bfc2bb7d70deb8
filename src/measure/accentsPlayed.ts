/*
 * The teacher's question: is a written accent heard?
 *
 * Conventions: velocity units over the middle of the next moments of the hand; one entry a hand and moment.
 * Method: the loudest note of the marked moment against the median of the three moments before and the three after that bear no
 *   mark themselves (standingOut.ts gives the neighbours). A sforzando over many notes in a row tells nothing and is left out.
 * Source: an accent is local: it stands out from its neighbours (notation).
 * What it does not tell: accents made by length or by waiting.
 */
import type { Score } from '../score/index.js';
import { HANDS, type Hand } from './hands.js';
import type { AccentPlayed } from './levelTypes.js';
import type { AskedOfHand } from './marksAsked.js';
import { meanOf, type StruckMoment, type StruckNotes } from './struck.js';

/** How many moments on each side are compared. */
const NEXT_MOMENTS = 3;

/** Fewest unmarked neighbours (>=). */
const LEAST_NEIGHBOURS = 3;

/** Every written accent that was played, in order of stretch and hand. */
export function accentsPlayed(score: Score, { moments }: StruckNotes, asked: Readonly<Record<Hand, AskedOfHand>>): readonly AccentPlayed[] {
  return moments.flatMap((byHand, stretch) => HANDS.flatMap((hand) => {
    const sforzati = new Set(asked[hand].sforzati);
    const kinds = byHand[hand].map((moment) => kindOf(score, moment, sforzati));
    return byHand[hand].flatMap((moment, place): readonly AccentPlayed[] => {
      const kind = kinds[place] ?? null;
      const around = byHand[hand].slice(Math.max(0, place - NEXT_MOMENTS), place + NEXT_MOMENTS + 1).filter((other, i) => other !== moment && kinds[Math.max(0, place - NEXT_MOMENTS) + i] === null);
      if (kind === null || around.length < LEAST_NEIGHBOURS) return [];
      return [{
        kind, hand, stretch, visitIndex: moment.visitIndex, tick: moment.tick, startS: moment.onsetS, notes: moment.notes.map(({ noteIndex }) => noteIndex),
        over: moment.loudest - meanOf(around.map(({ loudest }) => loudest)),
      }];
    });
  }));
}

/** What is marked at a moment; null for nothing. */
function kindOf(score: Score, moment: StruckMoment, sforzati: ReadonlySet<number>): AccentPlayed['kind'] | null {
  if (sforzati.has(moment.tick)) return 'sforzando';
  return moment.notes.some(({ noteIndex }) => score.notes[noteIndex]?.articulations.some((one) => one === 'accent' || one === 'strongAccent' || one === 'stress') === true) ? 'accent' : null;
}
