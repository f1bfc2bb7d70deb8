/*
 * Lengths: held notes, ties and rests, by finger and by ear.
 *
 * What is a fault stands in the files of its parts: long notes, rests, ties. Keys kept down within one harmony are never too long, and a
 * note that the pedal holds is never too short.
 */
import { mean } from 'simple-statistics';
import { measured, notMeasured } from '../base/index.js';
import { heldGround } from './heldNotes.js';
import { restFindings, restsOf } from './lengthsRests.js';
import { longChords, shortFindings } from './lengthsShort.js';
import { tieFindings } from './lengthsTies.js';
import { tellLengths } from './lengthsWords.js';
import { observe } from './merge.js';
import { detachedHands, repeatedChords } from './touchChords.js';
import { dotFindings, dotsOf } from './touchDots.js';
import type { AspectJudgement, JudgeInput, Observation } from './types.js';
import { concernOf } from './weight.js';

/** Concern of a recording in which every long note is silent and every rest is full, by that alone: it orders recordings without observations. Our own rule. */
const LOST_CONCERN = 0.25;

/** Judges the lengths. */
export function judgeLengths(input: JudgeInput): AspectJudgement {
  const ground = heldGround(input);
  const repeated = repeatedChords(ground);
  const detached = detachedHands(repeated);
  // a hand that detaches its repeated chords all through is told so once, as touch
  const asTouch = new Set(repeated.filter(({ hand }) => detached.has(hand)).flatMap(({ notes }) => notes.map(({ holding }) => holding.pair)));
  // what was struck again is told as that
  const again = new Set(input.measures.holding.restruck.map(({ pair }) => pair));
  const chords = longChords(ground).filter((chord) => !chord.some(({ holding: { pair } }) => asTouch.has(pair) || again.has(pair)));
  // dots that fill the rest behind them are told as dots
  const dots = new Set(dotFindings(ground, dotsOf(ground)).flatMap(({ place }) => place.notes));
  const rests = restsOf(ground).filter(({ before }) => !dots.has(before.note.index));
  if (chords.length + rests.length === 0) return { aspect: 'lengths', concern: notMeasured('no long notes and no rests were played that could be measured'), summary: '', observations: [] };
  const observations = observe(input, [...shortFindings(ground, chords), ...restFindings(ground, rests), ...tieFindings(ground)], (untold) => tellLengths(input, untold));
  const lost = [...chords.map((chord) => Math.max(0, 1 - Math.max(...chord.map(({ share }) => share)))), ...rests.filter(({ staff }) => staff !== null).map(({ heldShare }) => heldShare)];
  return { aspect: 'lengths', concern: measured(concernOf([...observations.map(({ weight }) => weight), LOST_CONCERN * mean(lost)])), summary: summary(observations), observations };
}

/** One plain sentence. */
function summary([first, ...others]: readonly Observation[]): string {
  if (first === undefined) return 'Long notes are held, and rests are silent.';
  return others.length === 0 ? first.text : `${first.text.slice(0, -1)}; ${others.length === 1 ? 'one more thing' : 'more'} to hear.`;
}
