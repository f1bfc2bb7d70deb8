/** Pieces judged for lengths and touch: small invented scores, and players with human scatter. */
import { analyseScore, type Analysis } from '../../src/analysis/index.js';
import type { AspectJudgement, JudgeInput } from '../../src/judge/index.js';
import { judgeLengths } from '../../src/judge/lengths.js';
import { judgeTouch } from '../../src/judge/touch.js';
import { barFacts } from '../../src/measure/barFacts.js';
import { holdingFacts } from '../../src/measure/holdings.js';
import { onsetDeviations } from '../../src/measure/onsetDeviation.js';
import { heldPiece, type Held, type Holding } from '../measure/holdingPiece.js';
import { NO_MEASURES } from '../measure/nothing.js';
import { left, right, scoreOf } from '../measure/piece.js';

/** Pedal plans come from the analysis; these pieces print no pedal, so one analysis serves them all. */
const UNPEDALLED: Analysis = analyseScore(scoreOf([right(1, 1, 60)]));

/** Everything that is judged from. */
export function inputOf(notes: readonly Held[], how: Holding = {}): JudgeInput {
  const piece = heldPiece(notes, how);
  const bars = barFacts(piece, onsetDeviations(piece));
  return { ...piece, analysis: UNPEDALLED, measures: { ...NO_MEASURES, bars, holding: holdingFacts(piece, bars) }, language: 'british' };
}

export function touchOf(notes: readonly Held[], how: Holding = {}): AspectJudgement {
  return judgeTouch(inputOf(notes, how));
}

export function lengthsOf(notes: readonly Held[], how: Holding = {}): AspectJudgement {
  return judgeLengths(inputOf(notes, how));
}

/** Kinds of what was found, heaviest first. */
export function kinds({ observations }: AspectJudgement): readonly string[] {
  return observations.map(({ kind }) => kind);
}

/** Bars of what was found, from 1. */
export function barsOf({ observations }: AspectJudgement): readonly number[] {
  return [...new Set(observations.flatMap(({ places }) => places.flatMap(({ fromBar, toBar }) => [fromBar + 1, toBar + 1])))];
}

/** Eight bars of crotchets in the right hand over crotchets in the left; `of` marks and holds the right hand's. */
export function tune(of: (bar: number, beat: number) => Partial<Held>): readonly Held[] {
  const beats = Array.from({ length: 32 }, (_, i) => ({ bar: 1 + Math.floor(i / 4), beat: 1 + (i % 4) }));
  return beats.flatMap(({ bar, beat }, i): readonly Held[] => [{ ...right(bar, beat, 67 + [0, 2, 4, 5, 7, 5, 4, 2][i % 8]!), ...of(bar, beat) }, { ...left(bar, beat, 48 + [0, 4, 7, 4][i % 4]!), share: 0.9 }]);
}

/** How many of so many seeded players are found. */
export function foundOf(players: number, judge: (seed: number) => AspectJudgement, kind: string): number {
  return Array.from({ length: players }, (_, seed) => judge(seed + 1)).filter((judged) => kinds(judged).includes(kind)).length;
}
