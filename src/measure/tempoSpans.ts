/*
 * The teacher's question: how fast was it, under each tempo that is written?
 *
 * Conventions: crotchets a minute; one entry a run of bars of one stretch under one mark. A mark counts from the bar it begins, one within a
 *   bar from the next; words that change the tempo by and by begin no span, "a tempo" goes back to the mark before them.
 * Method: the middle tempo of the bars, waits taken out; bars whose time may bend count only where there are no others.
 * Source: our own rule.
 * What it does not tell: whether that is right.
 */
import { median } from 'simple-statistics';
import { measured, notMeasured, type Measured } from '../base/index.js';
import { printedTempos, type PrintedTempo, type Score, type TempoChange } from '../score/index.js';
import type { BarPulse, BendReason, TempoSpan } from './pulseTypes.js';
import type { BarFacts } from './types.js';

/** Reasons for which a bar does not count towards the tempo of its span. */
const NOT_COUNTED: ReadonlySet<BendReason> = new Set(['free', 'fermata', 'close', 'bendWord']);

/** Changes that begin no tempo of their own. */
const PASSING: ReadonlySet<TempoChange> = new Set(['slowing', 'quickening', 'dying', 'free']);

/** Spans in order of time. @param pulses one entry a bar of `bars` */
export function tempoSpans(score: Score, bars: readonly BarFacts[], pulses: readonly BarPulse[]): readonly TempoSpan[] {
  const marks = marksByBar(score);
  const groups: { mark: PrintedTempo | null; places: number[] }[] = [];
  bars.forEach((bar, place) => {
    const mark = marks[bar.barIndex] ?? null;
    const last = groups.at(-1);
    const before = bars[last?.places.at(-1) ?? -1];
    if (last !== undefined && last.mark === mark && before?.stretch === bar.stretch) last.places.push(place);
    else groups.push({ mark, places: [place] });
  });
  return groups.flatMap(({ mark, places }) => {
    const first = bars[places[0] ?? -1];
    const end = bars[places.at(-1) ?? -1];
    return first === undefined || end === undefined ? [] : [{ mark, stretch: first.stretch, fromVisit: first.visitIndex, toVisit: end.visitIndex, played: middleTempo(places.flatMap((place) => pulses[place] ?? [])) }];
  });
}

/** The mark in force in every bar; null before the first. */
function marksByBar(score: Score): readonly (PrintedTempo | null)[] {
  const steady = steadyMarks(printedTempos(score));
  let place = 0;
  return score.bars.map(({ startTick }) => {
    while ((steady[place]?.from ?? Infinity) <= startTick) place += 1;
    return steady[place - 1]?.mark ?? null;
  });
}

/** Marks that set a tempo, and from which written tick on; "a tempo" and "tempo primo" set an earlier one again. */
function steadyMarks(marks: readonly PrintedTempo[]): readonly { readonly from: number; readonly mark: PrintedTempo }[] {
  const out: { from: number; mark: PrintedTempo }[] = [];
  for (const mark of marks) {
    if (mark.change !== null && PASSING.has(mark.change)) continue;
    const named = mark.crotchetsAMinute === null && mark.change === 'back';
    const set = !named ? mark : /primo|\bi\b|1/i.test(mark.words) ? out[0]?.mark : out.at(-1)?.mark;
    if (set !== undefined) out.push({ from: mark.tick, mark: set });
  }
  return out;
}

/** The middle tempo of bars. */
function middleTempo(pulses: readonly BarPulse[]): Measured<number> {
  const told = pulses.filter(({ tempo }) => tempo.measured);
  const steady = told.filter(({ bends }) => !bends.some((reason) => NOT_COUNTED.has(reason)));
  const tempos = (steady.length > 0 ? steady : told).flatMap(({ tempo }) => (tempo.measured ? [tempo.value] : []));
  return tempos.length === 0 ? notMeasured('no bar had enough notes') : measured(median(tempos));
}
