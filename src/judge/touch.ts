/*
 * Touch: legato under slurs, dots, and hands that let go of everything.
 *
 * What is a fault stands in the files of its parts: dots, portato and tenuto, slurs, repeated chords, figures that come again. Unmarked notes have no required touch. What the
 * player does everywhere and what slips here and there are both told, each once a hand. Under the pedal only what the keys alone can show is told, and the sentence says so.
 */
import { mean } from 'simple-statistics';
import { measured, notMeasured } from '../base/index.js';
import { heldGround } from './heldNotes.js';
import { observe } from './merge.js';
import { breathFindings, breathsOf } from './touchBreaths.js';
import { chordFindings, repeatedChords } from './touchChords.js';
import { DOT_SHARE, dotFindings, dotsOf } from './touchDots.js';
import { figureFindings, figuresPlayed } from './touchFigures.js';
import { carriedFindings, portatosOf, tenutosOf } from './touchPortato.js';
import { touchPraise } from './touchPraise.js';
import { slurEndFindings, slurFindings, slurJoins } from './touchSlurs.js';
import { tellTouch } from './touchWords.js';
import type { AspectJudgement, JudgeInput, Observation } from './types.js';
import { concernOf } from './weight.js';

/** Concern of a recording in which every touch is as far off as can be, by that alone: it orders recordings without observations. Our own rule. */
const OFF_CONCERN = 0.25;

/** Judges the touch. */
export function judgeTouch(input: JudgeInput): AspectJudgement {
  const ground = heldGround(input);
  const [dots, joins, chords, breaths] = [dotsOf(ground), slurJoins(ground), repeatedChords(ground), breathsOf(ground)];
  const [portatos, tenutos, figures] = [portatosOf(ground), tenutosOf(ground), figuresPlayed(ground).filter(({ length }) => length > 1)];
  if ([dots, joins, chords, breaths, portatos, tenutos, figures].every(({ length }) => length === 0)) return { aspect: 'touch', concern: notMeasured('no touch is marked that the fingers alone decided'), summary: '', observations: [] };
  const findings = [...dotFindings(ground, dots), ...slurFindings(ground, joins), ...slurEndFindings(ground), ...chordFindings(ground, chords), ...breathFindings(ground, breaths), ...carriedFindings(ground, { portatos, tenutos }), ...figureFindings(ground, figures)];
  const observations = observe(input, findings, (untold) => tellTouch(input, untold, { dots, joins }));
  const off = [dots.map(({ share }) => within(share - DOT_SHARE)), joins.map(({ share }) => within(1 - share)), chords.map(({ share }) => within(1 - share))];
  const background = Math.max(0, ...off.filter((one) => one.length > 0).map((one) => mean(one)));
  return { aspect: 'touch', concern: measured(concernOf([...observations.map(({ weight }) => weight), OFF_CONCERN * background])), summary: summary(observations), observations, praise: touchPraise(input, { dots, joins }) };
}

/** Kept between 0 and 1. */
function within(value: number): number {
  return Math.min(1, Math.max(0, value));
}

/** One plain sentence. */
function summary([first, ...others]: readonly Observation[]): string {
  if (first === undefined) return 'The touch is as marked, where the fingers alone decide it.';
  return others.length === 0 ? first.text : `${first.text.slice(0, -1)}; ${others.length === 1 ? 'one more thing' : 'more'} to hear.`;
}
