/*
 * The pulse: steadiness inside the piece. Hesitations and stops, rushing and dragging, jumps, slowing where it is hard.
 *
 * What is a fault stands in the files of its parts. Free playing, that is, a smooth bend shared by both hands, is none. The concern also
 * rises with what stays below the thresholds, so that it orders recordings of one piece.
 */
import { measured, notMeasured } from '../base/index.js';
import { driftFindings } from './drift.js';
import { hesitationFindings } from './hesitations.js';
import { observe } from './merge.js';
import { pulsePraise } from './pulsePraise.js';
import { tellPulse } from './pulseWords.js';
import { runawayFindings } from './runaways.js';
import { slowerWhereHardFindings } from './slowerWhereHard.js';
import type { AspectJudgement, JudgeInput, Observation } from './types.js';
import { middleOff, unsteadyFindings } from './unsteady.js';
import { concernOf } from './weight.js';

/** Fewest bars with a tempo (>=) that have a pulse to speak of. */
const LEAST_BARS = 2;

/** Bars so far off their neighbours, in the middle, are as unsteady as can be without a word: half of what is said. */
const FULL_OFF = 0.1;

/** What they weigh then. */
const OFF_SHARE = 0.4;

/** Judges the pulse. */
export function judgePulse(input: JudgeInput): AspectJudgement {
  const { bars, waits } = input.measures.pulse;
  if (bars.filter(({ tempo }) => tempo.measured).length < LEAST_BARS && waits.length === 0) return { aspect: 'pulse', concern: notMeasured('too little was played in one go to tell a pulse'), summary: '', observations: [] };
  const findings = [...hesitationFindings(input), ...runawayFindings(input), ...driftFindings(input), ...unsteadyFindings(input), ...slowerWhereHardFindings(input)];
  const observations = observe(input, findings, (untold) => tellPulse(input, untold));
  const weights = [...observations.map(({ weight }) => weight), OFF_SHARE * Math.min(1, (middleOff(input.measures) ?? 0) / FULL_OFF)];
  return { aspect: 'pulse', concern: measured(concernOf(weights)), summary: summary(observations), observations, praise: pulsePraise(input, observations) };
}

/** One plain sentence. */
function summary([first]: readonly Observation[]): string {
  return first === undefined ? 'The pulse is steady.' : first.text;
}
