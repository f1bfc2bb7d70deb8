/*
 * The teacher's question: how fast was this bar, did it hold its tempo, and were its beats even?
 *
 * Conventions: one entry a visit to a bar, in the order of `Measures.bars`. Tempo in crotchets a minute, waits taken out, so that a
 *   hesitation does not pass for slow playing; ratios 1 for "the same".
 * Method: tempo as in barTempo.ts on a clock that stands still during waits. Around: the middle tempo of up to four bars on either side
 *   in the same stretch. Off its neighbours: from the mean of the bar before and the bar after. Unevenness: each beat's length against the mean of the beats before and after it, which is 0 for any
 *   smooth bend; the middle distance over the beats of the bar and those next to it.
 * Source: our own rule.
 * What it does not tell: whether the piece asks for a bend; its reasons stand beside. A bar of long notes has no beats to compare.
 */
import { median } from 'simple-statistics';
import { measured, notMeasured, type Measured } from '../base/index.js';
import { beatTicks, type Score } from '../score/index.js';
import { barTempo } from './barTempo.js';
import { beatsOf } from './beatCurve.js';
import { reasonsAt, type ExpectedBend } from './expectedBends.js';
import { firstAtOrAfter, type PulsePoint } from './pulsePoints.js';
import type { BarPulse, Wait } from './pulseTypes.js';
import type { BarFacts } from './types.js';

/** Bars on either side that tell the tempo around (<=). */
const BARS_AROUND = 4;

/** Fewest of them (>=) that tell it. */
const LEAST_BARS_AROUND = 3;

/** Fewest beats (>=) with neighbours for a middle distance. */
const LEAST_BEATS = 2;

/** What bars are measured from. */
export interface BarGround {
  readonly score: Score;
  readonly bars: readonly BarFacts[];
  /** By stretch: moments of both hands, the waits taken out. */
  readonly moments: readonly (readonly PulsePoint[])[];
  readonly waits: readonly Wait[];
  readonly bends: readonly (readonly ExpectedBend[])[];
}

/** Pulse of every visit. */
export function barPulses(ground: BarGround): readonly BarPulse[] {
  const tempos = ground.bars.map((bar) => tempoOf(ground, bar));
  const waits = waitedBeats(ground.waits);
  return ground.bars.map((bar, i): BarPulse => {
    const uneven = beatLengths(ground, bar);
    return {
      tempo: tempos[i] ?? notMeasured('nothing was played in this bar'),
      againstAround: againstAround(ground.bars, tempos, i),
      offNeighbours: offNeighbours(ground.bars, tempos, i),
      drift: driftOf(uneven.own),
      unevenness: unevennessOf(uneven.around),
      waitBeats: waits.get(`${bar.stretch}:${bar.visitIndex}`) ?? 0,
      bends: bendsOf(ground, bar),
    };
  });
}

/** Tempo of a bar without its waits. */
function tempoOf({ score, moments }: BarGround, { stretch, visitIndex, barIndex }: BarFacts): Measured<number> {
  const fromTick = score.order[visitIndex]?.startTick ?? 0;
  const toTick = fromTick + (score.bars[barIndex]?.lengthTicks ?? 0);
  return barTempo(moments[stretch] ?? [], { fromTick, toTick, ticksPerQuarter: score.ticksPerQuarter });
}

/** A bar's tempo by the middle tempo of its neighbours. */
function againstAround(bars: readonly BarFacts[], tempos: readonly Measured<number>[], place: number): Measured<number> {
  const own = tempos[place];
  if (own?.measured !== true) return notMeasured('the bar has no tempo of its own');
  const around: number[] = [];
  for (let i = Math.max(0, place - BARS_AROUND); i <= place + BARS_AROUND; i += 1) {
    const tempo = tempos[i];
    if (i !== place && bars[i]?.stretch === bars[place]?.stretch && tempo?.measured === true) around.push(tempo.value);
  }
  return around.length < LEAST_BARS_AROUND ? notMeasured('too few bars around it were played in one go') : measured(own.value / median(around));
}

/** How far a bar's tempo is from the mean (of logarithms) of the bars before and after. */
function offNeighbours(bars: readonly BarFacts[], tempos: readonly Measured<number>[], place: number): Measured<number> {
  const [before, own, after] = [place - 1, place, place + 1].map((i) => {
    const tempo = tempos[i];
    return tempo?.measured === true && bars[i]?.stretch === bars[place]?.stretch ? Math.log(tempo.value) : null;
  });
  if (typeof before !== 'number' || typeof own !== 'number' || typeof after !== 'number') return notMeasured('the bar before or after it was not played in one go with it');
  return measured(Math.expm1(Math.abs(own - (before + after) / 2)));
}

/** Lengths of beats, seconds, waits taken out; null where a beat was not played. */
interface BeatLengths {
  readonly own: readonly (number | null)[];
  /** With the beat before and the one after the bar. */
  readonly around: readonly (number | null)[];
}

/** Lengths of the beats of a bar. */
function beatLengths({ score, moments }: BarGround, { stretch, visitIndex, barIndex }: BarFacts): BeatLengths {
  const visit = score.order[visitIndex];
  const bar = score.bars[barIndex];
  const points = moments[stretch] ?? [];
  const beats = visit === undefined ? [] : beatsOf(score, visit);
  const first = beats[0];
  const last = beats.at(-1);
  if (bar === undefined || first === undefined || last === undefined) return { own: [], around: [] };
  const beat = beatTicks(score, bar);
  const ends = [first - beat, ...beats, last + beat, last + 2 * beat].map((tick) => playedAt(points, tick));
  const lengths = ends.slice(1).map((end, i) => {
    const start = ends[i] ?? null;
    return end === null || start === null || end <= start ? null : end - start;
  });
  return { own: lengths.slice(1, -1), around: lengths };
}

/** When a tick was played, or null. */
function playedAt(points: readonly PulsePoint[], tick: number): number | null {
  const point = points[firstAtOrAfter(points, tick)];
  return point?.tick === tick ? point.onsetS : null;
}

/** Tempo of the last beat by that of the first. */
function driftOf(lengths: readonly (number | null)[]): Measured<number> {
  const first = lengths[0] ?? null;
  const last = lengths.at(-1) ?? null;
  return first === null || last === null || lengths.length < LEAST_BEATS ? notMeasured('not every beat of this bar was struck') : measured(first / last);
}

/** Middle distance of a beat from the mean of its neighbours, as a share of it. */
function unevennessOf(lengths: readonly (number | null)[]): Measured<number> {
  const off = lengths.flatMap((length, i) => {
    const before = lengths[i - 1] ?? null;
    const after = lengths[i + 1] ?? null;
    return length === null || before === null || after === null ? [] : [Math.abs(length / ((before + after) / 2) - 1)];
  });
  return off.length < LEAST_BEATS ? notMeasured('too few beats in a row were struck') : measured(median(off));
}

/** All waits of a visit together, beats, by "stretch:visit". */
function waitedBeats(waits: readonly Wait[]): ReadonlyMap<string, number> {
  const sums = new Map<string, number>();
  for (const { stretch, visitIndex, beats } of waits) sums.set(`${stretch}:${visitIndex}`, (sums.get(`${stretch}:${visitIndex}`) ?? 0) + beats);
  return sums;
}

/** Reasons that hold anywhere in a bar. */
function bendsOf({ score, bends }: BarGround, { visitIndex, barIndex }: BarFacts): BarPulse['bends'] {
  const fromTick = score.order[visitIndex]?.startTick ?? 0;
  return reasonsAt(bends, { fromTick: fromTick + 1, tick: fromTick + (score.bars[barIndex]?.lengthTicks ?? 0) - 1, visitIndex });
}
