/** Every kind of fault of time and touch, planted from below hearing to gross. Sizes in the order of growing fault; invented pieces and players. */
import { judgePulse } from '../../src/judge/pulse.js';
import type { AspectJudgement } from '../../src/judge/index.js';
import { lengthsOf, touchOf } from '../judge/heldPlayers.js';
import { dotted, DOTTED_PAIRS, HANDS_TOGETHER, inBar5, inBars5And6, leftBehind, lined, long, portato, resting, running, shortNotesEarly, slurred, waiting } from '../judge/plantedFaults.js';
import { judged, take } from '../judge/rhythmPiece.js';
import { judgedBy, SIXTEEN, takeOf } from '../judge/timePiece.js';

/** One kind of fault at growing sizes. */
export interface Sweep {
  /** The planted kind. */
  readonly kind: string;
  /** What its size is: as a column of the table. */
  readonly size: string;
  readonly sizes: readonly number[];
  /** The last size that must stay without a word: what is not heard, or passes as expression (sources beside each). */
  readonly silentUpTo: number;
  /** The first size at twice what a teacher calls clear. */
  readonly foundFrom: number;
  /** What the judges call it. */
  readonly called: readonly string[];
  /** One seeded player's take with the fault at this size, judged. */
  readonly judge: (size: number, seed: number) => AspectJudgement;
}

/** All sweeps. The usual shares are those of textbooks: staccato 0.4-0.5, portato 0.75, legato 1 of the value. */
export const SWEEPS: readonly Sweep[] = [
  {
    // the short note of a pair of 600 ms: a share of 0.72 and more passes as dotted; even is 150 ms early
    kind: 'even-dots', size: 'short note early, ms', sizes: [0, 10, 20, 35, 50, 80, 120, 150, 180], silentUpTo: 20, foundFrom: 120, called: ['evenDots', 'tripletDots'],
    judge: (ms, seed) => judged(take(DOTTED_PAIRS, { seed: 100 + seed, lateMs: shortNotesEarly(ms) })),
  },
  {
    // 6 % of a beat is just heard (Drake and Botte 1993), a third is expression
    kind: 'hesitation', size: 'wait, beats', sizes: [0, 0.06, 0.12, 0.2, 0.33, 0.5, 0.67, 1, 2], silentUpTo: 0.2, foundFrom: 0.67, called: ['hesitation', 'stop'],
    judge: (beats, seed) => judgedBy(judgePulse, takeOf(SIXTEEN, 500 + seed, waiting(beats))),
  },
  {
    // 3 to 6 % is just heard (Drake and Botte 1993), within a tenth is as marked
    kind: 'rushing', size: 'quicker after four bars, share', sizes: [0, 0.03, 0.06, 0.1, 0.15, 0.2, 0.25, 0.4], silentUpTo: 0.1, foundFrom: 0.25, called: ['rushing'],
    judge: (by, seed) => judgedBy(judgePulse, takeOf(SIXTEEN, 500 + seed, running(by))),
  },
  {
    // 22 ms: order heard three times in four (Sapp); 30 ms: the usual lead of a tune (Goebl 2001)
    kind: 'late-left', size: 'left hand late, ms', sizes: [0, 10, 22, 30, 45, 60, 80, 120, 200], silentUpTo: 30, foundFrom: 60, called: ['behind'],
    judge: (ms, seed) => judged(take(HANDS_TOGETHER, { seed: 100 + seed, lateMs: leftBehind(ms) })),
  },
  {
    kind: 'short-long-notes', size: 'held, share of the value', sizes: [1, 0.85, 0.7, 0.65, 0.55, 0.45, 0.33, 0.2], silentUpTo: 0.65, foundFrom: 0.33, called: ['shortNote'],
    judge: (share, seed) => lengthsOf(long(inBar5(0.95, share)), { seed: 1 + seed }),
  },
  {
    kind: 'filled-rest', size: 'minim before a rest held, share', sizes: [0.8, 1, 1.1, 1.2, 1.4, 1.6, 1.8, 2], silentUpTo: 1.2, foundFrom: 1.8, called: ['filledRest'],
    judge: (share, seed) => lengthsOf(resting(inBar5(0.95, share)), { seed: 1 + seed }),
  },
  {
    kind: 'long-staccato', size: 'dots held, share of the value', sizes: [0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.95, 1.05], silentUpTo: 0.6, foundFrom: 0.95, called: ['staccatoLong'],
    judge: (share, seed) => touchOf(dotted(inBars5And6(0.4, share)), { seed: 1 + seed }),
  },
  {
    // gaps below 30 ms pass as legato (common practice): 0.94 of 500 ms
    kind: 'detached-slur', size: 'slurred notes held, share', sizes: [1.1, 1, 0.94, 0.85, 0.75, 0.65, 0.55, 0.45, 0.33], silentUpTo: 0.85, foundFrom: 0.45, called: ['slurBroken'],
    judge: (share, seed) => touchOf(slurred(inBars5And6(1, share)), { seed: 1 + seed }),
  },
  {
    kind: 'short-portato', size: 'portato held, share of the value', sizes: [0.75, 0.7, 0.6, 0.5, 0.4, 0.25], silentUpTo: 0.6, foundFrom: 0.25, called: ['portatoShort'],
    judge: (share, seed) => touchOf(portato(inBars5And6(0.75, share)), { seed: 1 + seed }),
  },
  {
    kind: 'short-tenuto', size: 'notes with a line held, share', sizes: [1, 0.85, 0.7, 0.6, 0.5, 0.35, 0.25], silentUpTo: 0.6, foundFrom: 0.25, called: ['tenutoShort'],
    judge: (share, seed) => touchOf(lined(inBars5And6(1, share)), { seed: 1 + seed }),
  },
];
