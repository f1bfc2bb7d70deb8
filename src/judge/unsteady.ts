/*
 * An unsteady pulse: bars, or beats within them, that jump between quicker and slower.
 *
 * What is a fault: jumps, not bends. A smooth rubato makes every bar lie between its neighbours; a bar counts by how far it does not, and by no more than this player does
 * everywhere, so that a lilt (a waltz) and free playing pass. Tempo within a tenth passes as the same (common practice); the beats of free players stay within that.
 */
import { median } from 'simple-statistics';
import type { BarFacts, BendReason, Measures } from '../measure/index.js';
import { beatTicks, ticksToCrotchets, type Score } from '../score/index.js';
import type { Finding, JudgeInput } from './types.js';
import { severityOf } from './weight.js';

/** From so far (>=) off their neighbours on, in the middle of the whole, bars are unsteady all along: beyond the tenth that passes as the same. */
const ALL_ALONG = 0.1;

/** In one place bars must be twice as far off (>=): a phrase that eases into its end is off its neighbours by a tenth, too. */
const IN_PLACE_BARS = 0.2;

/** The same for the beats of a bar, and a bar further (>=). Free players stay below. */
const IN_PLACE_BEATS = 0.15;

/** Beats that are off by less (<), seconds, are not uneven: up to 60 ms the order of two onsets is not surely heard. */
const UNEVEN_S = 0.06;

/** In one place it is also so many times (>=) the player's own middle: a lilt that is there all along is none. */
const TIMES_OWN = 2.5;

/** How many bars are looked at together: a jump there and back takes two. */
const WINDOW_BARS = 4;

/** How many of them (>=) must be told. */
const LEAST_TOLD = 3;

/** Fewest bars (>=) for a middle of the whole. */
const LEAST_BARS = 6;

/** An unsteady bar may be the remains of a wait or a slip. */
const CONFIDENCE = 0.75;

/** Reasons for which a bar does not count. */
const NOT_COUNTED: ReadonlySet<BendReason> = new Set(['free', 'fermata', 'close', 'bendWord']);

/** What is off, by visit; null where it was not measured or does not count. */
type Offs = readonly (number | null)[];

/** Findings on bars, and on beats. */
export function unsteadyFindings({ measures, score }: JudgeInput): readonly Finding[] {
  return [
    ...unsteadyRuns(measures.bars, barOffs(measures), { topic: 'bars', least: IN_PLACE_BARS, allAlong: ALL_ALONG, heard: () => true }),
    ...unsteadyRuns(measures.bars, beatOffs(measures), { topic: 'beats', least: IN_PLACE_BEATS, allAlong: Infinity, heard: (off, i) => off * beatSeconds(score, measures, i) >= UNEVEN_S }),
  ];
}

/** How unsteady the bars of the whole are in their middle; null where there are too few. */
export function middleOff(measures: Measures): number | null {
  const told = barOffs(measures).flatMap((off) => off ?? []);
  return told.length < LEAST_BARS ? null : median(told);
}

/** How far bars are off their neighbours. */
function barOffs({ bars, pulse }: Measures): Offs {
  // the last bar before a new tempo, and the first two in which it is being found
  const starts = new Set(pulse.spans.flatMap(({ stretch, fromVisit }) => [-1, 0, 1].map((more) => `${stretch}:${fromVisit + more}`)));
  return pulse.bars.map(({ offNeighbours, bends }, i) => {
    const counts = offNeighbours.measured && !bends.some((reason) => NOT_COUNTED.has(reason)) && !starts.has(`${bars[i]?.stretch ?? 0}:${bars[i]?.visitIndex ?? 0}`);
    return counts ? offNeighbours.value : null;
  });
}

/** How far beats are off their neighbours. */
function beatOffs({ pulse }: Measures): Offs {
  return pulse.bars.map(({ unevenness, bends }) => (unevenness.measured && !bends.some((reason) => NOT_COUNTED.has(reason)) ? unevenness.value : null));
}

/** The length of a beat in a visit, seconds; 0 where it has no tempo. */
function beatSeconds(score: Score, { bars, pulse }: Measures, place: number): number {
  const bar = score.bars[bars[place]?.barIndex ?? -1];
  const tempo = pulse.bars[place]?.tempo;
  return bar === undefined || tempo?.measured !== true ? 0 : (60 / tempo.value) * ticksToCrotchets(score, beatTicks(score, bar));
}

/** When something counts as unsteady. */
interface Limits {
  readonly topic: string;
  /** In one place. */
  readonly least: number;
  /** In the middle of the whole. */
  readonly allAlong: number;
  /** True for what is enough to be heard, by its place in the list of visits. */
  readonly heard: (off: number, place: number) => boolean;
}

/** Runs of windows whose middle is too far off. */
function unsteadyRuns(bars: readonly BarFacts[], offs: Offs, { topic, least, allAlong, heard }: Limits): readonly Finding[] {
  const told = offs.flatMap((off) => off ?? []);
  if (told.length < LEAST_BARS) return [];
  const own = median(told);
  const threshold = own >= allAlong ? allAlong : Math.max(least, TIMES_OWN * own);
  const windows = bars.flatMap((bar, from) => {
    const values = offs.slice(from, from + WINDOW_BARS).flatMap((off, i) => (off === null || bars[from + i]?.stretch !== bar.stretch ? [] : [heard(off, from + i) ? off : 0]));
    const off = values.length < LEAST_TOLD ? 0 : median(values);
    return off >= threshold ? [{ from, to: Math.min(from + WINDOW_BARS, bars.length) - 1, off }] : [];
  });
  return windows.map(({ from, to, off }) => findingOf(bars, { from, to }, { topic, off, threshold }));
}

/** The finding of one window; those that overlap are put together later. */
function findingOf(bars: readonly BarFacts[], { from, to }: { readonly from: number; readonly to: number }, { topic, off, threshold }: { readonly topic: string; readonly off: number; readonly threshold: number }): Finding {
  const first = bars[from];
  const last = bars[to];
  return {
    aspect: 'pulse', kind: 'unsteady', hand: null, topic,
    place: { fromBar: first?.barIndex ?? 0, toBar: Math.max(first?.barIndex ?? 0, last?.barIndex ?? 0), pass: first?.pass ?? 1, attempt: first?.attempt ?? 1, notes: [], startS: first?.startS ?? 0 },
    measured: { value: Math.round(100 * off), unit: '%', threshold: Math.round(100 * threshold) },
    severity: severityOf(off / threshold), confidence: CONFIDENCE,
  };
}
