/*
 * Notes: wrong, missed and added notes, wrong octaves, and the same slip wherever it returns.
 *
 * What is a fault: a note that differs from the score on the last try. One that a later try put right weighs less, and a
 * bar in which most notes are missing says more about the reading than about fingers: the program is less sure of it.
 */
import { measured, word } from '../base/index.js';
import { differences, type Difference, type DifferenceKind } from './differences.js';
import type { RecordedNote, Recording } from '../recording/index.js';
import { observe, type Untold } from './merge.js';
import { whereInWords } from './placeWords.js';
import type { AspectJudgement, Finding, FoundPlace, JudgeInput, Told } from './types.js';
import { concernOf, severityOf } from './weight.js';

/** How much a slip of each kind is heard, against a wrong note. Our own rule: a missing inner note is heard least. */
const HEARD: Readonly<Record<DifferenceKind, number>> = { wrong: 1, octave: 1, added: 0.8, missed: 0.8 };

/**
 * How much an added note is heard whose name is sounding already, in any octave: it melts into the chord. That tones an octave apart
 * fuse is long known (Stumpf 1890, from memory); the figure is our own rule.
 */
const HEARD_DOUBLING = 0.3;

/** How much a note is heard that comes in another octave or at another moment of its bar: the right note sounds, if not where it stands. Our own rule. */
const HEARD_ELSEWHERE = 0.6;

/** How far back a key may have been pressed that still sounds, seconds: longer notes have faded. */
const SOUNDING_REACH_S = 4;

/** Keys pressed this soon after another belong to the same moment, seconds. */
const TOGETHER_S = 0.05;

/** Two hands press no more keys at once than this. */
const MOST_KEYS_TOGETHER = 12;

/** What is left of a slip that a later try put right. Our own rule. */
const CORRECTED = 0.5;

/** From this share (>=) of a visit's notes on, the differences are one misreading, or a bar that was aligned amiss. */
const MOSTLY_DIFFERENT = 0.5;

/** How sure we are of a bar in which most differs. */
const CONFIDENCE_MOSTLY_DIFFERENT = 0.6;

/** One wrong note, as many times the threshold of what is worth a look: it is heard by everybody. */
const ONE_SLIP = 1.3;

/** What weighs less (<) than this is hardly heard: it is shown, and is no concern. */
const HARDLY_HEARD = 0.2;

/** Further slips in one bar count half. */
const FURTHER_SLIP = 0.5;

/** "G natural for G sharp": the letter was read, its accidental was not. */
const ACCIDENTAL = /^([A-G])(?: [a-z]+)* for \1(?: [a-z]+)*$/;

/** The same slip in another bar too is a misreading: it will not go away by itself. */
const MISREADING_TIMES = 1.5;

/** Judges the notes. */
export function judgeNotes(input: JudgeInput): AspectJudgement {
  const all = differences(withoutRestruckTies(input));
  const texts = new Map<string, readonly Difference[]>();
  const findings = all.flatMap((difference) => {
    const found = findingsOf(input, difference, all);
    for (const { topic } of found) texts.set(topic, [...(texts.get(topic) ?? []), difference]);
    return found;
  });
  const observations = observe(input, findings, (untold) => tell(input, untold, texts.get(untold.topic) ?? []));
  const heardWeights = observations.map(({ weight }) => weight).filter((weight) => weight >= HARDLY_HEARD);
  const slips = all.reduce((sum, { slips: some }) => sum + some.length, 0);
  return { aspect: 'notes', concern: measured(concernOf(heardWeights)), summary: summary(slips, observations.length), observations };
}

/** A tie struck again is a matter of lengths: its press is no added note. */
function withoutRestruckTies(input: JudgeInput): JudgeInput {
  const again = new Set(input.measures.holding.restruck.map(({ note }) => note));
  if (again.size === 0) return input;
  return { ...input, alignment: { ...input.alignment, added: input.alignment.added.filter(({ note }) => !again.has(note)) } };
}

/** One finding for each visit in which a difference happened. */
function findingsOf(input: JudgeInput, difference: Difference, all: readonly Difference[]): readonly Finding[] {
  const kind = difference.slips[0]?.kind ?? 'wrong';
  const inAVisit = difference.slips.length / difference.visits.length - difference.moved;
  const lasting = difference.visits.some((visit) => !input.measures.bars.some((bar) => bar.visitIndex === visit.visitIndex && bar.attempt > visit.attempt));
  const returns = all.some((other) => other !== difference && other.hand === difference.hand && other.plain === difference.plain);
  return difference.visits.map((visit): Finding => ({
    aspect: 'notes',
    kind,
    hand: difference.hand,
    place: { ...placeOf(difference, input), pass: visit.pass, attempt: visit.attempt, startS: visit.startS },
    measured: { value: Math.ceil(inAVisit), unit: Math.ceil(inAVisit) === 1 ? 'note' : 'notes', threshold: 1 },
    severity: severityOf((ONE_SLIP + FURTHER_SLIP * (inAVisit - 1)) * (returns && kind === 'wrong' ? MISREADING_TIMES : 1)) * heard(input, difference) * (lasting ? 1 : CORRECTED),
    confidence: visit.wrong + visit.missed >= MOSTLY_DIFFERENT * (visit.played + visit.wrong + visit.missed) ? CONFIDENCE_MOSTLY_DIFFERENT : 1,
    topic: octavesOff(difference) ?? (returns ? difference.plain : `${difference.barIndex}: ${difference.text}`),
  }));
}

/** How much a difference is heard, against a wrong note. */
function heard({ recording }: JudgeInput, { slips, visits, moved }: Difference): number {
  if (2 * moved * visits.length === slips.length) return HEARD_ELSEWHERE;
  const kind = slips[0]?.kind ?? 'wrong';
  const doubling = kind === 'added' && slips.every(({ note }) => note !== null && isDoubling(recording, note));
  return doubling ? HEARD_DOUBLING : HEARD[kind];
}

/** True for a press whose name is sounding already. */
function isDoubling({ notes }: Recording, index: number): boolean {
  const pressed = notes[index];
  if (pressed === undefined) return false;
  const sounds = (other: RecordedNote): boolean => other.index !== index && other.releaseS > pressed.onsetS && (other.pitch - pressed.pitch) % 12 === 0 && other.pitch !== pressed.pitch;
  for (let i = index - 1; i >= 0; i--) {
    const other = notes[i];
    if (other === undefined || other.onsetS < pressed.onsetS - SOUNDING_REACH_S) break;
    if (sounds(other)) return true;
  }
  const after = notes.slice(index + 1, index + 1 + MOST_KEYS_TOGETHER);
  return after.some((other) => other.onsetS <= pressed.onsetS + TOGETHER_S && sounds(other));
}

/** Bar and notes of a difference. */
function placeOf({ barIndex, slips }: Difference, { score }: JudgeInput): Pick<FoundPlace, 'fromBar' | 'toBar' | 'notes'> {
  const notes = slips.flatMap(({ occurrence }) => (occurrence === null ? [] : [score.occurrences[occurrence]?.noteIndex ?? -1]));
  return { fromBar: barIndex, toBar: barIndex, notes: [...new Set(notes)].filter((index) => index >= 0) };
}

/** "an octave too low" where several notes of a bar are so, and nothing else is wrong with them; null for anything else. */
function octavesOff({ slips }: Difference): string | null {
  const ends = new Set(slips.map(({ kind, text }) => (kind === 'octave' ? text.replace(/^.*?(?=an octave|\S+ octaves)/, '') : '')));
  const [end = ''] = ends;
  return ends.size === 1 && end !== '' && slips.length > 1 ? end : null;
}

/** "Left hand, bar 13: B natural for B flat." and, where it returns, what that means. */
function tell(input: JudgeInput, { hand, places, kind, topic }: Untold, differing: readonly Difference[]): Told {
  const [first] = differing;
  const where = whereInWords(input, hand, places);
  if (first === undefined) throw new RangeError('a remark on notes that do not differ');
  if (octavesOff(first) === topic) return { text: `${where}: ${topic}.`, advice: 'Find the first note from middle C before you begin.' };
  if (first.many) return { text: `${where}: ${first.text}.`, advice: `Is it another edition? If not, read it again slowly, ${word('handsSeparately', input.language)}.` };
  const returns = new Set(places.map(({ fromBar }) => fromBar)).size > 1 && kind === 'wrong';
  const advice = returns || ACCIDENTAL.test(first.plain) ? `Ring it, and name it aloud from the ${word('bar', input.language)} before.` : '';
  return { text: `${where}: ${returns ? `${first.plain} each time` : first.text}.`, advice };
}

/** One sentence on all of them. */
function summary(slips: number, observations: number): string {
  if (slips === 0) return 'Every note as written.';
  return slips === 1 ? 'One note differs from the score.' : `${slips} notes differ from the score, in ${observations === 1 ? 'one place' : `${observations} places`}.`;
}
