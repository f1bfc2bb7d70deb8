/*
 * The pedal: what the ear gets of it against the harmony, and what is marked.
 *
 * What is a fault stands in the files of its parts. Dry playing is never one unless the score marks a pedal; nor is anything that
 * only the clock could tell.
 */
import { measured, notMeasured } from '../base/index.js';
import { blurFindings } from './pedalBlurs.js';
import { footFindings, isMarked } from './pedalFoot.js';
import { pedalGround, type PedalGround } from './pedalGround.js';
import { wordFindings } from './pedalAsked.js';
import { asHabits } from './pedalHabits.js';
import { cleanPraise } from './pedalPraise.js';
import { tellPedal } from './pedalWords.js';
import { observe } from './merge.js';
import type { AspectJudgement, Finding, FoundPlace, JudgeInput, Observation } from './types.js';
import { concernOf } from './weight.js';

/** What blur below the thresholds adds to the concern at the most: enough to order recordings, too little to be one. */
const QUIET_SHARE = 0.2;

/** So many of the worst changes tell how much blur there is. */
const WORST_CHANGES = 8;

/** What is left of the confidence where the pedal was hardly a foot's. Our own rule. */
const GUESSED_SURETY = 0.5;

/** From this share (>=) of the time on, half pedal and the soft pedal are worth a word. */
const WORTH_A_WORD = 0.2;

/** Judges the pedal. */
export function judgePedal(input: JudgeInput): AspectJudgement {
  const nothing = input.recording.limits.some(({ kind }) => kind === 'no-pedal');
  const marked = input.analysis.pedalPlan.entries.some(isMarked) || input.measures.pedal.words.some(({ asks }) => asks === 'pedal');
  if (nothing && !marked) return { aspect: 'pedal', concern: notMeasured('the recording holds no pedal'), summary: '', observations: [] };
  const ground = pedalGround(input);
  const findings = pedalFindings(input);
  const observations = observe(input, findings, (untold) => tellPedal(input, untold, worstOf(findings, untold.kind)));
  return { aspect: 'pedal', concern: measured(concern(ground, observations)), summary: summary(ground, observations), observations, praise: cleanPraise(ground, observations) };
}

/**
 * Every single finding; one about a change of harmony has that change's moment (`PedalChange.soundS`) as the start of its place, one about a
 * smear the smear's.
 */
export function pedalFindings(input: JudgeInput): readonly Finding[] {
  const ground = pedalGround(input);
  const guessed = input.recording.limits.some(({ kind }) => kind === 'guessed-pedal');
  const found = asHabits([...blurFindings(ground), ...footFindings(ground), ...wordFindings(ground)], ground.facts.habits);
  return guessed ? found.map((one) => ({ ...one, confidence: GUESSED_SURETY * one.confidence })) : found;
}

/** The place of a kind's worst finding. */
function worstOf(findings: readonly Finding[], kind: string): FoundPlace {
  const worst = findings.filter((one) => one.kind === kind).sort((a, b) => b.severity * b.confidence - a.severity * a.confidence)[0];
  if (worst === undefined) throw new RangeError('an observation of nothing');
  return worst.place;
}

/** What was observed, and a little for blur that stays below the thresholds. */
function concern({ facts }: PedalGround, observations: readonly Observation[]): number {
  const worst = facts.changes.map(({ blur }) => blur).sort((a, b) => b - a).slice(0, WORST_CHANGES);
  const quiet = worst.reduce((sum, blur) => sum + blur, 0) / WORST_CHANGES;
  return 1 - (1 - concernOf(observations.map(({ weight }) => weight))) * (1 - QUIET_SHARE * quiet);
}

/** One plain sentence. */
function summary({ facts: { habits } }: PedalGround, [first]: readonly Observation[]): string {
  if (first !== undefined) return first.text;
  if (habits.presses === 0) return 'Played without pedal.';
  const half = habits.halfShare.measured && habits.halfShare.value >= WORTH_A_WORD ? ', often half down' : '';
  const soft = habits.softShare >= WORTH_A_WORD ? '; the soft pedal is used too' : '';
  return `The pedal is clean${half}${soft}.`;
}
