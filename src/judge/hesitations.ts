/*
 * Hesitations and stops: the playing waits where nothing lets it.
 *
 * What is a fault: a wait that comes unprepared, inside a phrase, on every attempt, or beside a slip. Up to half a beat at the edges of phrases is expression; at the start
 * of a section, under a ritardando or after a breath mark more, under a fermata whatever the player likes. Held against what this
 * player does in the other bars, and at the same place in other passes and tries. Common practice, no source, but for hearing: see waits.ts.
 */
import { median, quantile } from 'simple-statistics';
import { firstIndex } from '../base/index.js';
import type { BarFacts, BendReason, Wait } from '../measure/index.js';
import { leanedOn } from './leanedOn.js';
import type { Finding, JudgeInput } from './types.js';
import { visitPlace } from './visitPlace.js';
import { severityOf } from './weight.js';

/** Beats (>=, as they are felt) from which on a wait inside a phrase is a hesitation. Free players stay below. */
const INSIDE_BEATS = 1 / 3;

/** A shorter wait (<), seconds, passes even where beats are quick: half of the shortest beat that is felt. */
const LEAST_S = 0.25;

/** The same where something lets the time bend. */
const BENT_BEATS: Readonly<Record<BendReason, number>> = {
  free: Infinity, fermata: Infinity, breath: 1, close: 4, bendWord: 1, tempoWord: 3, sectionStart: 1, ornament: 0.5, phraseEnd: 0.5,
};

/** A wait that was made alike elsewhere, or before a note that players lean on, may be meant, and in the first bars the tempo is still being found: let pass as at the edge of a phrase. */
const MEANT_BEATS = 0.5;

/** So many bars (<=) after the first the tempo is being found. */
const FINDING_BARS = 1;

/** It was made alike where the others (their middle) have at least this share of it. */
const ALIKE_SHARE = 0.5;

/** So many times (>=) what this player waits in most bars, … */
const TIMES_USUAL = 2;

/** … most being three in four, … */
const USUAL_SHARE = 0.75;

/** … but half a beat inside a phrase is heard however often it happens. */
const MOST_USUAL_BEATS = 0.5;

/** A slowing just before (times) lets it wait more inside a phrase, too, up to this: half a beat. */
const MOST_PREPARED = 1.5;

/** Beside a slip less is enough. */
const SLIP_FACTOR = 0.75;

/** From so long on (>=) it is a stop, seconds and beats: the pulse is lost. */
const STOP_S = 2;
const STOP_BEATS = 2;

/** How sure we are: inside a phrase, and where something lets the time bend. */
const SURE = 0.9;
const LESS_SURE = 0.7;

/** From this share (>=) of wrong and missed notes on, the bar was not read and its moments are unsure. */
const UNREAD = 0.5;

/** Hesitations and stops of a recording. */
export function hesitationFindings(input: JudgeInput): readonly Finding[] {
  const { bars, pulse } = input.measures;
  const usual = usualWait(bars, pulse.waits);
  const byVisit = new Map(bars.map((bar) => [`${bar.stretch}:${bar.visitIndex}`, bar]));
  const leaned = leanedOn(input.score, input.analysis);
  return pulse.waits.flatMap((wait) => {
    const bar = byVisit.get(`${wait.stretch}:${wait.visitIndex}`);
    const first = input.alignment.route[wait.stretch]?.fromVisit ?? 0;
    const finding = wait.visitIndex - first <= FINDING_BARS;
    const threshold = thresholdOf(wait, usual, finding || (!wait.slip && notesAt(input, wait).some((note) => leaned.has(note))));
    if (bar === undefined || wait.beats < threshold || wait.waitS < LEAST_S) return [];
    return [findingOf(input, wait, { bar, threshold })];
  });
}

/** The longest wait of three bars in four, beats. */
function usualWait(bars: readonly BarFacts[], waits: readonly Wait[]): number {
  const longest = new Map<string, number>();
  for (const { stretch, visitIndex, beats } of waits) longest.set(`${stretch}:${visitIndex}`, Math.max(beats, longest.get(`${stretch}:${visitIndex}`) ?? 0));
  const all = bars.map(({ stretch, visitIndex }) => longest.get(`${stretch}:${visitIndex}`) ?? 0);
  return all.length === 0 ? 0 : quantile(all, USUAL_SHARE);
}

/** From how many beats on a wait counts. */
function thresholdOf({ bend, prepared, slip, elsewhere, beats }: Wait, usual: number, mayBeMeant: boolean): number {
  const alike = elsewhere.length > 0 && !slip && median([...elsewhere]) >= ALIKE_SHARE * beats;
  const written = bend === null ? INSIDE_BEATS : BENT_BEATS[bend];
  const allowed = Math.max(written, INSIDE_BEATS * Math.min(prepared, MOST_PREPARED), alike || mayBeMeant ? MEANT_BEATS : 0, Math.min(TIMES_USUAL * usual, MOST_USUAL_BEATS));
  return allowed * (slip ? SLIP_FACTOR : 1);
}

/** One finding. */
function findingOf(input: JudgeInput, wait: Wait, { bar, threshold }: { readonly bar: BarFacts; readonly threshold: number }): Finding {
  const unread = bar.wrong + bar.missed >= UNREAD * (bar.played + bar.wrong + bar.missed);
  const stopped = wait.waitS >= STOP_S && wait.beats >= STOP_BEATS;
  return {
    aspect: 'pulse', kind: stopped ? 'stop' : 'hesitation', hand: null, topic: '',
    place: { ...visitPlace(bar, notesAt(input, wait)), startS: wait.onsetS },
    measured: { value: Math.round(100 * wait.waitS) / 100, unit: 's', threshold: Math.round((100 * wait.waitS * threshold) / wait.beats) / 100 },
    severity: severityOf(wait.beats / threshold),
    confidence: wait.bend === null && !unread ? SURE : LESS_SURE,
  };
}

/** Written notes of the moment that came late; occurrences are in order of their onsets. */
function notesAt({ score: { occurrences } }: JudgeInput, { tick }: Wait): readonly number[] {
  const notes: number[] = [];
  for (let i = firstIndex(occurrences.length, (place) => (occurrences[place]?.onsetTick ?? Infinity) >= tick); occurrences[i]?.onsetTick === tick; i += 1) notes.push(occurrences[i]?.noteIndex ?? 0);
  return notes;
}
