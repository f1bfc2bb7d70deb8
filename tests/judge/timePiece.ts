/** Pieces judged for their pulse and tempo: small invented scores and players with human scatter. */
import { gaussian, seededRandom } from '../../src/base/index.js';
import { analyseScore, type Analysis } from '../../src/analysis/index.js';
import type { AspectJudge, AspectJudgement, Observation } from '../../src/judge/index.js';
import type { Measures } from '../../src/measure/index.js';
import { barFacts } from '../../src/measure/barFacts.js';
import { onsetDeviations } from '../../src/measure/onsetDeviation.js';
import type { Piece } from '../../src/measure/piece.js';
import { pulseFacts } from '../../src/measure/pulse.js';
import { pulseRuns } from '../../src/measure/pulseAcrossWaits.js';
import { pulseLines } from '../../src/measure/pulsePoints.js';
import type { Score } from '../../src/score/index.js';
import { NO_MEASURES } from '../measure/nothing.js';
import { left, played, right, run, scoreOf, type Clock, type Played } from '../measure/piece.js';

/** Scatter of one finger's onsets, ms: two takes of one good pianist differ by about as much. */
const SCATTER_MS = 8;

/** Sixteen bars of quavers over crotchets. */
export const SIXTEEN: Score = scoreOf([...run(right, 128, 0.5), ...run(left, 64)]);

/** Analyses, each score once: many players play the same one. */
const analyses = new WeakMap<Score, Analysis>();

/** What is known of a score alone. */
export function analysisOf(score: Score): Analysis {
  const analysis = analyses.get(score) ?? analyseScore(score);
  analyses.set(score, analysis);
  return analysis;
}

/** The facts of time alone: bars, onsets, pulse. */
export function timeMeasures(piece: Piece, analysis: Analysis): Measures {
  const lines = pulseLines(piece);
  const runs = pulseRuns(lines, piece.score.ticksPerQuarter);
  const onsets = onsetDeviations(piece, runs);
  const bars = barFacts(piece, onsets);
  return { ...NO_MEASURES, onsets, bars, pulse: pulseFacts({ ...piece, analysis }, { bars, lines, runs }) };
}

/** Judges a take. */
export function judgedBy(judge: AspectJudge, piece: Piece, analysis = analysisOf(piece.score)): AspectJudgement {
  return judge({ ...piece, analysis, measures: timeMeasures(piece, analysis), language: 'british' });
}

/** A take of a score with scatter, on a clock. */
export function takeOf(score: Score, seed: number, clock: Clock, more: Partial<Played> = {}): Piece {
  const scatter = gaussian(seededRandom(seed));
  return played(score, { clock, shiftMs: () => SCATTER_MS * scatter(), ...more });
}

/** A clock whose bars (of four crotchets) have tempos of their own: seconds a crotchet for each bar, from 0. */
export function barsClock(secondsOf: (bar: number) => number): Clock {
  return (crotchets) => {
    const bar = Math.floor(crotchets / 4);
    let seconds = 0;
    for (let i = 0; i < bar; i += 1) seconds += 4 * secondsOf(i);
    return seconds + (crotchets - 4 * bar) * secondsOf(bar);
  };
}

/** Seeds of so many players. */
export function players(count = 20): readonly number[] {
  return Array.from({ length: count }, (_, i) => 500 + i);
}

/** Share of players with whom a kind is found in these bars (from 1). */
export function foundShare(judge: AspectJudge, takes: readonly Piece[], { kind, bars: [from, to] }: { readonly kind: string; readonly bars: readonly [number, number] }): number {
  const found = takes.filter((piece) => judgedBy(judge, piece).observations.some((one) => one.kind === kind && one.places.some(({ fromBar, toBar }) => fromBar <= to - 1 && toBar >= from - 1)));
  return found.length / takes.length;
}

/** The one observation of a kind. @throws RangeError where there is none */
export function oneOf({ observations }: AspectJudgement, kind: string): Observation {
  const found = observations.find((one) => one.kind === kind);
  if (found === undefined) throw new RangeError(`no ${kind} among ${observations.map((one) => one.kind).join(', ')}`);
  return found;
}
