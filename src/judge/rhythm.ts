/*
 * Rhythm: lengths between onsets against what is written, and the hands together.
 *
 * What is a fault stands in the files of its parts: dots, groups of two and three, cross-rhythms, beats and runs, ornaments, hands. Everything is held against the
 * player's own pulse, and nothing is said of bars that were stumbled through.
 */
import { measured, notMeasured } from '../base/index.js';
import { observe } from './merge.js';
import { beatFindings, stepFindings, upbeatFindings } from './rhythmBeats.js';
import { rhythmConcern } from './rhythmConcern.js';
import { crossFindings } from './rhythmCross.js';
import { dotFindings } from './rhythmDots.js';
import { rhythmGround, type RhythmInput } from './rhythmGround.js';
import { groupFindings } from './rhythmGroups.js';
import { handsFindings } from './rhythmHands.js';
import { chordFindings, graceFindings, runFindings } from './rhythmFingers.js';
import { ornamentFindings } from './rhythmOrnaments.js';
import { rhythmPraise } from './rhythmPraise.js';
import { tellRhythm } from './rhythmWords.js';
import type { AspectJudgement, Finding, FoundPlace, Observation } from './types.js';

/** Fewest notes (>=) that have a rhythm. */
const LEAST_NOTES = 4;

/** An observation that weighs less (<) is worth no word of its own: something at one place, hardly over its threshold, and not quite sure. It still counts in the concern. */
const WORTH_A_WORD = 0.24;

/** What is told as the player's choice, however little it weighs. */
const CHOICE = 'overDotted';

/** Judges the rhythm. */
export function judgeRhythm(input: RhythmInput): AspectJudgement {
  if (input.alignment.pairs.length < LEAST_NOTES) return { aspect: 'rhythm', concern: notMeasured('too few notes were played to tell a rhythm'), summary: '', observations: [] };
  const ground = rhythmGround(input);
  const findings = [dotFindings, crossFindings, groupFindings, beatFindings, stepFindings, upbeatFindings, runFindings, graceFindings, ornamentFindings, chordFindings, handsFindings].reduce<readonly Finding[]>((found, find) => [...found, ...unexplained(find(ground), found)], []);
  const all = observe(input, findings, (untold) => tellRhythm(input, untold));
  const observations = all.filter(({ kind, weight }) => weight >= WORTH_A_WORD || kind === CHOICE);
  return { aspect: 'rhythm', concern: measured(rhythmConcern(ground.facts, all.map(({ weight }) => weight))), summary: summary(observations), observations, praise: rhythmPraise(ground, findings) };
}

/** What no earlier finding explains: one wrong length shows as a figure, as a beat and as a step, and is said once, by the first that names it. */
function unexplained(findings: readonly Finding[], earlier: readonly Finding[]): readonly Finding[] {
  const key = ({ fromBar, pass, attempt }: FoundPlace, note: number): string => [fromBar, pass, attempt, note].join(' ');
  const named = new Set(earlier.flatMap(({ place }) => place.notes.map((note) => key(place, note))));
  return findings.filter(({ place }) => !place.notes.some((note) => named.has(key(place, note))));
}

/** One plain sentence. */
function summary([first, ...others]: readonly Observation[]): string {
  if (first === undefined) return 'The rhythm is as written.';
  return others.length === 0 ? first.text : `${first.text.slice(0, -1)}; ${others.length === 1 ? 'one more thing' : 'more'} to hear.`;
}
