/** The pedal change by change, for the curious: what the foot did, what was carried over, and what is said of it. */
import { listInWords, sentenceCase, type Language } from '../base/index.js';
import { chordOverBass } from '../analysis/index.js';
import { namePlayed, noteInWords, pedalFindings, type Finding, type JudgeInput } from '../judge/index.js';
import type { CarriedNote, PedalChange, PedalHabits } from '../measure/index.js';
import { barNames, beatTicks, type Score } from '../score/index.js';

/** Strengths by level against the new sound, dB: half the amplitude is 6 dB. Rounded to what is said in words. */
const STRENGTHS: readonly (readonly [fromDb: number, words: string])[] = [[-3, 'as strong as the new sound'], [-9, 'about half as strong'], [-15, 'about a quarter as strong'], [-22, 'about a tenth as strong'], [-Infinity, 'faint']];

/** As many carried notes are named. */
const MOST_NAMED = 4;

/** A blur below this (<) is none, 0-1. */
const HARDLY = 0.08;

/** What each fault is called. */
const FAULTS: Readonly<Record<string, string>> = { blurred: 'blurred', caught: 'caught the old sound', neverLifted: 'blurred', withTheChord: 'down with the chord', gap: 'a hole before it', bassNotCaught: 'bass not caught', smeared: 'smeared', notUsed: 'not used where marked', notRinging: 'cut where it should ring', notDry: 'down where none is marked', unaCorda: 'una corda not used', treCorde: 'soft pedal still down' };

/** All changes of a recording as lines, and how the foot goes about it. */
export function pedalInWords(input: JudgeInput): string {
  const { score, recording, measures: { pedal } } = input;
  const limits = recording.limits.filter(({ kind }) => kind.endsWith('pedal')).map(({ text }) => text);
  const findings = pedalFindings(input);
  const faults = faultsByTime(findings);
  const lines = pedal.changes.map((change) => changeLine(input, change, faults.get(change.soundS) ?? []));
  const smears = pedal.smears.filter(({ soundS }) => faults.has(soundS)).map((smear) => `${placeInWords(score, smear, input.language)}: ${notesInWords(input, smear.carried)} into the notes after (${(faults.get(smear.soundS) ?? []).join(', ')})`);
  const told = new Set([...pedal.changes, ...pedal.smears].map(({ soundS }) => soundS));
  const besides = findings.filter(({ place }) => !told.has(place.startS)).map(({ kind, place }) => `${sentenceCase(barNames(score, input.language).range(place.fromBar, place.toBar))}: ${FAULTS[kind] ?? kind}`);
  const parts = [[score.title, ...limits, ...habitLines(pedal.habits)], lines, titled('Inside one harmony', smears), titled('Between the changes', besides)];
  return `${parts.filter((part) => part.length > 0).map((part) => part.filter((line) => line !== '').join('\n')).join('\n\n')}\n`;
}

/** Lines under a title; nothing where there are none. */
function titled(title: string, lines: readonly string[]): readonly string[] {
  return lines.length === 0 ? [] : [title, ...lines];
}

/** What is said, by the moment it is said of. */
function faultsByTime(findings: readonly Finding[]): ReadonlyMap<number, readonly string[]> {
  const faults = new Map<number, string[]>();
  for (const { kind, place: { startS } } of findings) faults.set(startS, [...(faults.get(startS) ?? []), FAULTS[kind] ?? kind]);
  return faults;
}

/** One change: where, from what to what, the foot, what rings on. */
function changeLine(input: JudgeInput, change: PedalChange, faults: readonly string[]): string {
  const harmony = input.analysis.harmonies[change.harmony ?? -1];
  const chord = harmony === undefined ? 'pedal marked' : chordOverBass(harmony);
  const ringing = change.blur < HARDLY ? '' : `; ${notesInWords(input, change.carried)}`;
  const gap = change.gapS > 0 ? `; silent ${seconds(change.gapS)} before it` : '';
  const said = faults.length === 0 ? '' : ` - ${faults.join(', ')}`;
  return `${placeInWords(input.score, change, input.language)}: ${chord === '' ? 'a harmony without a name' : chord}; ${footInWords(change)}${gap}${ringing}${said}`;
}

/** "bar 4, beat 3". */
function placeInWords(score: Score, { tick, visitIndex }: Pick<PedalChange, 'tick' | 'visitIndex'>, language: Language): string {
  const visit = score.order[visitIndex];
  const bar = visit === undefined ? undefined : score.bars[visit.barIndex];
  if (visit === undefined || bar === undefined) return '';
  const beat = 1 + (tick - visit.startTick) / beatTicks(score, bar);
  const again = visit.pass > 1 ? ` (pass ${visit.pass})` : '';
  return `${sentenceCase(barNames(score, language).long(visit.barIndex))}${again}, beat ${Number(beat.toFixed(2))}`;
}

/** "up 0.05 s after the chord, down 0.21 s after it". */
function footInWords({ foot, liftS, pressS }: PedalChange): string {
  const up = liftS === null ? '' : `up ${whenInWords(liftS)}`;
  const down = pressS === null ? '' : `down ${whenInWords(pressS)}`;
  switch (foot) {
    case 'up': return 'no pedal';
    case 'held': return 'pedal held down';
    case 'lifted': return `${up}, and stays up`;
    case 'pressed': return down;
    case 'changed': return `${up}, ${down}`;
  }
}

/** "0.12 s after the chord", "with the chord". */
function whenInWords(atS: number): string {
  if (Math.abs(atS) < 0.005) return 'with the chord';
  return `${seconds(Math.abs(atS))} ${atS < 0 ? 'before' : 'after'} the chord`;
}

function seconds(value: number): string {
  return `${value.toFixed(2)} s`;
}

/** "C and E of the old chord still sound for 1.10 s, about half as strong". */
function notesInWords({ score }: JudgeInput, carried: readonly CarriedNote[]): string {
  const some = carried.slice(0, MOST_NAMED);
  const names = [...new Set(some.map(({ noteIndex, pitch }) => noteInWords(score.notes[noteIndex ?? -1]?.pitch ?? namePlayed(pitch, null, score.bars[0]?.key ?? 0))))];
  if (names.length === 0) return 'something of the old still sounds';
  const lastsS = some.reduce((most, one) => Math.max(most, one.lastsS), 0);
  const loudest = some.reduce((most, one) => Math.max(most, one.againstNewDb), -Infinity);
  const strength = STRENGTHS.find(([fromDb]) => loudest >= fromDb)?.[1] ?? '';
  return `the old ${listInWords(names)} still ${names.length === 1 ? 'sounds' : 'sound'} for ${seconds(lastsS)}, ${strength}`;
}

/** How the foot goes about it. */
function habitLines({ downShare, presses, reachedDown, lifted, liftLagS, pressLagS, halfShare, softShare, sostenutoPresses, flutters }: PedalHabits): readonly string[] {
  const percent = (share: number): string => `${Math.round(100 * share)} %`;
  return [
    `Down ${percent(downShare)} of the time, pressed ${presses} times; lifted at ${lifted} of the ${reachedDown} changes of harmony that it was down for.`,
    liftLagS.measured && pressLagS.measured ? `As a rule up ${whenInWords(liftLagS.value)}, down ${whenInWords(pressLagS.value)}.` : '',
    halfShare.measured ? `Part of the way down for ${percent(halfShare.value)} of the time it is used.` : '',
    softShare > 0 ? `Soft pedal: ${percent(softShare)} of the time.` : '',
    sostenutoPresses > 0 ? `Sostenuto pedal: pressed ${sostenutoPresses} times.` : '',
    flutters.length > 0 ? `Quick presses one after the other in ${flutters.length} ${flutters.length === 1 ? 'place' : 'places'}.` : '',
  ].filter((line) => line !== '');
}
