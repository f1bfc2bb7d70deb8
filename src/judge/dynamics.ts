/*
 * Dynamics: marks, hairpins, accents, single notes that stick out, and how far the playing goes between loud and soft.
 *
 * What is a fault stands in the files of its parts. Levels are compared within one recording only, and a difference that is not heard is no
 * change. An instrument without touch response is not judged.
 */
import { measured } from '../base/index.js';
import type { LevelFacts } from '../measure/index.js';
import { askedOf, judged, markFindings, usualStep } from './dynamicsMarks.js';
import { stickingOut } from './dynamicsNotes.js';
import { phraseFindings } from './dynamicsPhrases.js';
import { notSpeaking } from './dynamicsSpeaking.js';
import { tellDynamics } from './dynamicsWords.js';
import { HEARD_UNITS, levelGround, type LevelGround } from './levelGround.js';
import { contrastPraise } from './levelPraise.js';
import { phrasePraise } from './phrasePraise.js';
import { observe } from './merge.js';
import type { AspectJudgement, Finding, JudgeInput, Observation } from './types.js';
import { concernOf, severityOf } from './weight.js';

/** Under this range (<) of the bars, a tenth to nine tenths, all is one level, velocity units: twice what is just heard. */
const ONE_LEVEL_UNITS = 2 * HEARD_UNITS;

/** Fewest bars (>=) that should have more than one level. */
const LEAST_BARS = 8;

/** Fewest marks (>=) not made that are told as one level throughout; one alone is told by its place. */
const LEAST_UNMADE = 2;

/** Range of the bars from which nothing is wanting, velocity units: p to f at five units a step. Common practice, no source. */
const FULL_RANGE_UNITS = 15;

/** What marks that are made by halves and a narrow range can add to the concern. Our own rule. */
const MARKS_CONCERN = 0.4;
const RANGE_CONCERN = 0.3;

/** Judges the dynamics. */
export function judgeDynamics(input: JudgeInput): AspectJudgement {
  const { levels } = input.measures;
  if (!levels.measured) return { aspect: 'dynamics', concern: levels, summary: '', observations: [] };
  const ground = levelGround(input, levels.value);
  const unmade = markFindings(ground);
  const ofMarks = oneLevel(ground, unmade.filter(({ kind }) => kind !== 'accentNotHeard')) ?? unmade;
  const findings = [...ofMarks, ...notSpeaking(ground), ...toldOnce(stickingOut(ground), phraseFindings(ground, ofMarks))];
  const observations = observe(input, findings, (untold) => tellDynamics(input, untold, levels.value.changes));
  const concern = concernOf([...observations.map(({ weight }) => weight), MARKS_CONCERN * wanting(levels.value), RANGE_CONCERN * narrow(levels.value)]);
  return { aspect: 'dynamics', concern: measured(concern), summary: summary(observations), observations, praise: [...contrastPraise(ground, observations), ...phrasePraise(ground, observations)] };
}

/** A single note that is told as the end of its phrase is told as that alone, with the greater weight of the two. */
function toldOnce(single: readonly Finding[], ofPhrases: readonly Finding[]): readonly Finding[] {
  const same = (one: Finding, other: Finding): boolean => other.kind === 'endBumped' && one.place.startS === other.place.startS && one.place.notes.some((note) => other.place.notes.includes(note));
  return [...single.filter((one) => !ofPhrases.some((other) => same(one, other))), ...ofPhrases.map((other) => {
    const one = single.find((note) => same(note, other));
    return one === undefined ? other : { ...other, severity: Math.max(one.severity, other.severity), confidence: Math.max(one.confidence, other.confidence) };
  })];
}

/** The whole piece on one level, at the marks that ask for more; null where it is not. */
function oneLevel(ground: LevelGround, unmade: readonly Finding[]): readonly Finding[] | null {
  const { input: { measures }, facts: { scale: { range } } } = ground;
  if (!range.measured || range.value >= ONE_LEVEL_UNITS || measures.bars.length < LEAST_BARS || unmade.length < LEAST_UNMADE) return null;
  const severity = Math.max(severityOf(ONE_LEVEL_UNITS / Math.max(1, range.value)), ...unmade.map((one) => one.severity));
  return unmade.map((one) => ({ ...one, kind: 'oneLevel', hand: null, topic: '', severity, confidence: 0.9, measured: { value: Math.round(range.value), unit: 'velocity units', threshold: ONE_LEVEL_UNITS } }));
}

/** 0-1: how much of the marked changes and hairpins is wanting, all alike. */
function wanting({ changes, hairpins }: LevelFacts): number {
  const usual = usualStep([]);
  const missing = (made: number, expected: number): number => Math.min(1, Math.max(0, 1 - made / expected));
  const all = [...changes.filter(judged).map((change) => missing(change.made, askedOf(change, usual).expected)), ...hairpins.map(({ made }) => missing(made, 2 * usual))];
  return all.length === 0 ? 0 : all.reduce((sum, one) => sum + one, 0) / all.length;
}

/** 0-1: how narrow the playing is. */
function narrow({ scale: { range } }: LevelFacts): number {
  return range.measured ? Math.max(0, 1 - range.value / FULL_RANGE_UNITS) : 0;
}

/** One plain sentence. */
function summary([first, ...others]: readonly Observation[]): string {
  if (first === undefined) return 'Loud and soft follow the score.';
  return others.length === 0 ? first.text : `${first.text.slice(0, -1)}; ${others.length === 1 ? 'one more thing' : 'more'} to hear.`;
}
