/*
 * The teacher's question: what happened in this bar, each time it was played?
 *
 * Conventions: one entry a bar, pass and attempt, that is, one for each bar of each stretch of the route, in time order.
 *   Counts do not overlap: `played` are the paired notes (octave slips included), `wrong` the presses that stand for a
 *   written note, `missed` the written notes that nothing stands for, `added` the presses that stand for nothing. A press counts
 *   in the bar of the written note it is nearest to; one that is near none, before or after the music, in no bar.
 *   Tempo in crotchets a minute whatever the metre; timing in ms, late positive.
 * Method: tempo from the first moment of the bar to the first of the next (or the last of the bar, where the next begins
 *   with silence or was not played), both hands together; a stop within the bar is part of it. Timing of a hand: median, and
 *   median absolute deviation scaled to the standard deviation of a normal distribution.
 * Source: our own rule; the scale factor is 1/0.6745, the upper quartile of the normal distribution.
 * What it does not tell: whether a tempo is the right one, whether a deviation is heard. A bar in which nothing was
 *   played stands where the bar before it ended.
 */
import type { BarVisit, Score } from '../score/index.js';
import type { Stretch } from '../align/index.js';
import { tallyVisits, type Tally } from './barTally.js';
import { barTempo } from './barTempo.js';
import { handTiming } from './handTiming.js';
import type { Piece } from './piece.js';
import { bothHands, pulseLines, type PulsePoint } from './pulsePoints.js';
import type { BarFacts, OnsetDeviation } from './types.js';

/**
 * What happened in every visit to every bar.
 * @param onsets what `onsetDeviations` gave for the same piece
 * @throws RangeError where the route leaves the score
 */
export function barFacts(piece: Piece, onsets: readonly OnsetDeviation[]): readonly BarFacts[] {
  const { score, alignment } = piece;
  const tallies = tallyVisits(piece, onsets);
  const moments = pulseLines(piece).map(bothHands);
  return alignment.route.flatMap((stretch, place) => {
    let quietS = stretch.startS;
    return visitsOf(score, stretch).map((visit) => {
      const tally = tallies.at(place, visit.index);
      const facts = factsOf({ score, visit, tally, moments: moments[place] ?? [], quietS });
      quietS = facts.endS;
      return { ...facts, stretch: place };
    });
  });
}

/** The bars a stretch goes through, in playing order. */
function visitsOf(score: Score, { fromVisit, toVisit }: Stretch): readonly BarVisit[] {
  if (fromVisit < 0 || toVisit >= score.order.length) throw new RangeError('the route leaves the score');
  return score.order.slice(fromVisit, toVisit + 1);
}

/** What one entry is made from; `quietS` is where a bar without a sound stands. */
interface Ingredients {
  readonly score: Score;
  readonly visit: BarVisit;
  readonly tally: Tally;
  readonly moments: readonly PulsePoint[];
  readonly quietS: number;
}

/** One entry, the stretch left to the caller. */
function factsOf({ score, visit, tally, moments, quietS }: Ingredients): Omit<BarFacts, 'stretch'> {
  const bar = score.bars[visit.barIndex];
  if (bar === undefined) throw new RangeError(`the score has no bar ${visit.barIndex}`);
  const heard = tally.lastS >= tally.firstS;
  return {
    visitIndex: visit.index,
    barIndex: visit.barIndex,
    number: bar.number,
    pass: visit.pass,
    attempt: tally.attempt,
    startS: heard ? tally.firstS : quietS,
    endS: heard ? tally.lastS : quietS,
    played: tally.played,
    wrong: tally.wrong,
    missed: tally.missed,
    added: tally.added,
    tempo: barTempo(moments, { fromTick: visit.startTick, toTick: visit.startTick + bar.lengthTicks, ticksPerQuarter: score.ticksPerQuarter }),
    right: handTiming(tally.deviationsMs.right),
    left: handTiming(tally.deviationsMs.left),
  };
}
