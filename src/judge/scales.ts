/*
 * Scales and arpeggios: evenness first.
 *
 * What is a fault: notes that scatter about their own pulse by more than half as much again as professionals' do, in a hand's way up or down.
 * An even way is praised, however slow. Balance of the hands is not judged: in a scale they are meant to be alike.
 */
import { mean } from 'simple-statistics';
import { groupBy, listInWords, measured, notMeasured, sentenceCase } from '../base/index.js';
import { scaleRuns, type Hand, type ScaleRun } from '../measure/index.js';
import { isScale, type Score } from '../score/index.js';
import { ASPECT_JUDGES } from './aspects.js';
import { observe } from './merge.js';
import { noteInWords } from './noteNames.js';
import { judgeRhythm } from './rhythm.js';
import type { AspectJudge, AspectJudgement, Finding, FoundPlace, JudgeInput, Praise } from './types.js';
import { severityOf } from './weight.js';

/** Coefficient of variation (>=) from which a scale is uneven: professionals have 0.065 to 0.071 (Jabusch 2006), nearly twice that is heard by anybody. */
const UNEVEN = 0.12;

/** Up to this (<=) it is even: a quarter more than professionals' at speed. */
const EVEN = 0.085;

/** The variation at which the concern is one half: it orders recordings, even ones too. */
const HALF_CONCERN = 0.15;

/** How much an even scale deserves to be said: it is what the scale was for. */
const PRAISE_WEIGHT = 0.6;

/** How sure the program is: nothing is expressive in a scale. */
const CONFIDENCE = 0.9;

/** What other judges say of the same thing. */
const SAID_HERE: ReadonlySet<string> = new Set(['unevenRun', 'longShort', 'shortLong']);

/** The judges for a score: a scale has its own judge of rhythm, and none of balance. */
export function judgesFor(score: Score): readonly AspectJudge[] {
  if (!isScale(score)) return ASPECT_JUDGES;
  return ASPECT_JUDGES.map((judge) => (input: JudgeInput): AspectJudgement => {
    const judged = judge === judgeRhythm ? judgeEvenness(input) : judge(input);
    return judged.aspect === 'balance' ? { aspect: 'balance', concern: notMeasured('in a scale both hands are meant to be alike'), summary: '', observations: [] } : judged;
  });
}

/** Judges the rhythm of a scale: evenness, and what else the usual judge finds. */
function judgeEvenness(input: JudgeInput): AspectJudgement {
  const usual = judgeRhythm(input);
  const runs = scaleRuns(input);
  if (runs.length === 0) return usual;
  const bad = runs.filter((run) => run.variation >= UNEVEN);
  // one thing to say, however many ways it shows in
  const hand = new Set(bad.map((run) => run.hand)).size === 1 ? (bad[0]?.hand ?? null) : null;
  const uneven = observe(input, bad.flatMap((run) => findingOf(input, run, hand)), () => tell(input, bad, hand));
  const observations = [...uneven, ...usual.observations.filter(({ kind }) => !SAID_HERE.has(kind))].sort((a, b) => b.weight - a.weight);
  const variation = mean(runs.map((run) => run.variation));
  return {
    aspect: 'rhythm', observations, concern: measured(variation / (variation + HALF_CONCERN)),
    summary: observations[0]?.text ?? `The notes follow one another evenly, within ${Math.round(100 * variation)} per cent of their distance.`,
    praise: [...praiseOf(input, runs), ...(usual.praise ?? []).filter(({ text }) => !text.includes('runs are even'))],
  };
}

/** A way that is uneven; it weighs by how far it is from an even one, since evenness is what a scale is for. */
function findingOf(input: JudgeInput, run: ScaleRun, hand: Hand | null): readonly Finding[] {
  const place = placeOf(input, run);
  if (place === null) return [];
  return [{ aspect: 'rhythm', kind: 'unevenScale', hand, topic: '', place, measured: { value: Math.round(100 * run.variation), unit: '%', threshold: 100 * UNEVEN }, severity: severityOf(run.variation / EVEN), confidence: CONFIDENCE }];
}

/** Bars and notes of one way. */
function placeOf({ score, alignment, recording }: JudgeInput, { pairs }: ScaleRun): FoundPlace | null {
  const own = pairs.flatMap((pair) => alignment.pairs[pair] ?? []);
  const written = own.flatMap(({ occurrence }) => score.occurrences[occurrence] ?? []);
  const [first] = written;
  const [struck] = own;
  if (first === undefined || struck === undefined) return null;
  const bars = written.map(({ barIndex }) => barIndex);
  return { fromBar: Math.min(...bars), toBar: Math.max(...bars), pass: first.pass, attempt: struck.attempt, notes: written.map(({ noteIndex }) => noteIndex), startS: recording.notes[struck.note]?.onsetS ?? 0 };
}

/** What was heard, where it is worst, and what to do. */
function tell(input: JudgeInput, bad: readonly ScaleRun[], hand: Hand | null): { readonly text: string; readonly advice: string } {
  const worst = bad.reduce((a, b) => (b.variation > a.variation ? b : a));
  const note = input.score.notes[input.score.occurrences[input.alignment.pairs[worst.worst.pair]?.occurrence ?? -1]?.noteIndex ?? -1]?.pitch;
  const way = (run: ScaleRun): string => `going ${run.up ? 'up' : 'down'}`;
  const oneWay = bad.every(({ up }) => up === worst.up);
  const who = hand === null ? 'Both hands' : `${sentenceCase(hand)} hand`;
  const most = [...(hand === null ? [`in the ${worst.hand} hand`] : []), ...(oneWay ? [] : [way(worst)]), `at the ${note === undefined ? 'turn' : noteInWords(note)}`].join(' ');
  return {
    text: `${who}${oneWay ? `, ${way(worst)}` : ''}: the notes are uneven, most ${most}, which comes ${worst.worst.offMs > 0 ? 'late' : 'early'}.`,
    advice: 'Long and short in turn, then short and long, then evenly again, slowly enough that each finger is ready.',
  };
}

/** Hands that are even all the way. */
function praiseOf(input: JudgeInput, runs: readonly ScaleRun[]): readonly Praise[] {
  const even = [...groupBy(runs, ({ hand }) => hand).values()].filter((own) => own.every(({ variation }) => variation <= EVEN));
  const [first] = even.flat();
  if (first === undefined) return [];
  const places = even.flat().flatMap((run) => placeOf(input, run) ?? []).sort((a, b) => a.startS - b.startS);
  const hands = even.flatMap(([run]) => run?.hand ?? []);
  const who = hands.length > 1 ? 'Both hands' : `${sentenceCase(listInWords(hands))} hand`;
  return [{ aspect: 'rhythm', hand: hands.length > 1 ? null : first.hand, places, weight: PRAISE_WEIGHT, text: `${who}: even from note to note, up and down.` }];
}
