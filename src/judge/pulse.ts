/*
 * The pulse: steadiness inside the piece. Hesitations and stops, rushing and dragging, slowing where it is hard.
 *
 * What is a fault stands in the files of its parts. Free playing, that is, a smooth bend shared by both hands, is none.
 */
import { measured, notMeasured } from '../base/index.js';
import { hesitationFindings } from './hesitations.js';
import { observe } from './merge.js';
import { tellPulse } from './pulseWords.js';
import { runawayFindings } from './runaways.js';
import type { AspectJudgement, JudgeInput, Observation } from './types.js';
import { concernOf } from './weight.js';

/** Fewest bars with a tempo (>=) that have a pulse to speak of. */
const LEAST_BARS = 2;

/** Judges the pulse. */
export function judgePulse(input: JudgeInput): AspectJudgement {
  const { bars, waits } = input.measures.pulse;
  if (bars.filter(({ tempo }) => tempo.measured).length < LEAST_BARS && waits.length === 0) return { aspect: 'pulse', concern: notMeasured('too little was played in one go to tell a pulse'), summary: '', observations: [] };
  const findings = [...hesitationFindings(input), ...runawayFindings(input)];
  const observations = observe(findings, (untold) => tellPulse(input, untold));
  return { aspect: 'pulse', concern: measured(concernOf(observations.map(({ weight }) => weight))), summary: summary(observations), observations };
}

/** One plain sentence. */
function summary([first]: readonly Observation[]): string {
  return first === undefined ? 'The pulse is steady.' : first.text;
}
