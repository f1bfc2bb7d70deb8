/*
 * Question: where does the bass walk by step, so that it is worth an ear of its own?
 * Conventions: one bass a harmony, the lowest note struck at its beginning; MIDI numbers.
 * Method: harmonies in a row whose basses go one way by semitones and tones, in the register in which they stand, each struck with its harmony.
 * Source: common practice; the limits are our own rule.
 * What it does not tell: lines of passing notes under one harmony.
 */
import { sentenceCase } from '../base/index.js';
import type { Harmony } from '../harmony/index.js';
import { noteInWords } from './noteNames.js';
import { beginningIn, type Sound } from './sounds.js';
import { barsInWords } from './teachingNotesBars.js';
import { say, type Candidate, type NotesGround } from './teachingNotesGround.js';

/** A bass that goes the same way by step over so many harmonies is a line of its own; `>=`. */
const LINE_LENGTH = 5;

/** The longest inner step of such a line lasts at most so many times as long as the shortest, `<=`: meanwhile the bass goes elsewhere. */
const MOST_UNEVEN = 2;

/** A harmony with the bass that is struck with it. */
interface Step {
  readonly harmony: Harmony;
  readonly midi: number;
}

/** "Bars 9–12: the bass goes down by step from C to E." Of several lines the longest. */
export function bassLines({ score, harmony, sounds, language }: NotesGround): readonly Candidate[] {
  const lines = stepRuns(harmony.harmonies.map((one) => stepOf(one, sounds))).filter((line) => line.length >= LINE_LENGTH && isPlain(line));
  const longest = lines.toSorted((a, b) => b.length - a.length)[0];
  const [from, to] = [longest?.[0], longest?.[longest.length - 1]];
  if (longest === undefined || from === undefined || to === undefined) return [];
  const place = { fromBar: from.harmony.barIndex, toBar: to.harmony.barIndex };
  const [first, last] = [from, to].map((step) => noteInWords(step.harmony.bassName));
  const reach = first === last ? `through an octave, ${first ?? ''} to ${last ?? ''}` : `from ${first ?? ''} to ${last ?? ''}`;
  const text = `${sentenceCase(barsInWords(score, place, language))}: the bass goes ${to.midi > from.midi ? 'up' : 'down'} by step ${reach}.`;
  return [say(text, [place], 4 + Math.min(2, longest.length / 4))];
}

/** A harmony's bass, or null where the lowest note struck with it is another. */
function stepOf(harmony: Harmony, sounds: readonly Sound[]): Step | null {
  const [lowest] = beginningIn(sounds, harmony.fromTick, harmony.fromTick + 1);
  return lowest === undefined || lowest.midi % 12 !== harmony.bass ? null : { harmony, midi: lowest.midi };
}

/** Steps in a row that go one way. */
function stepRuns(steps: readonly (Step | null)[]): readonly (readonly Step[])[] {
  const runs: Step[][] = [];
  let way = 0;
  steps.forEach((step, i) => {
    const before = steps[i - 1] ?? null;
    const here = step === null || before === null ? 0 : wayOf(before, step);
    const run = runs[runs.length - 1];
    if (step !== null && run !== undefined && here !== 0 && here === way) run.push(step);
    else if (step !== null) runs.push(before === null || here === 0 ? [step] : [before, step]);
    way = here;
  });
  return runs;
}

/** 1 or -1 for a semitone or a tone up or down; otherwise 0. */
function wayOf(first: Step, second: Step): number {
  const semitones = second.midi - first.midi;
  return Math.abs(semitones) <= 2 ? Math.sign(semitones) : 0;
}

/** Whether a line is even, and can be named without doubled signs. */
function isPlain(line: readonly Step[]): boolean {
  const lengths = line.slice(1, -1).map(({ harmony }) => harmony.toTick - harmony.fromTick);
  const shortest = lengths.reduce((least, length) => Math.min(least, length), Infinity);
  return lengths.every((length) => length <= MOST_UNEVEN * shortest) && line.every(({ harmony }) => !/##|bb/.test(harmony.bassName));
}
