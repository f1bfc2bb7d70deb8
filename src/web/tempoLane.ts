/** The lane of tempo: by the beat where the pulse is known by the beat, else by the bar. */
import { word, type Language } from '../base/index.js';
import type { CurveLane, CurvePoint } from '../engrave/index.js';
import type { BarFacts, BeatMoment } from '../measure/index.js';
import { beatTicks, type BarNames, type BeatUnit, type Score } from '../score/index.js';
import { beatPlace } from './beatPlace.js';

/** Room over the fastest and under the slowest bar, as a share of it. */
const TEMPO_ROOM = 0.06;

/** How far single beats widen the lane beyond its bars, by the middle tempo (<=): a wait or a last long note stands at the edge. */
const BEAT_TIMES = 1.5;

/** What the lane is made from. */
export interface TempoParts {
  readonly score: Pick<Score, 'bars' | 'order' | 'ticksPerQuarter'>;
  /** The visits that are shown, by bar. */
  readonly shown: ReadonlyMap<number, BarFacts>;
  /** Every beat, in order of time. */
  readonly beats: readonly BeatMoment[];
  readonly names: BarNames;
  readonly unit: BeatUnit;
  /** Marked tempo in `unit`s a minute, or null. */
  readonly marked: number | null;
  readonly language: Language;
}

/** Tempo in the beat of the marking, from beat to beat; of a bar whose beats are not known, that of the bar. */
export function tempoCurve(parts: TempoParts): CurveLane {
  const { marked, language, shown } = parts;
  const beats = beatPoints(parts);
  const known = new Set(beats.map(({ barIndex }) => barIndex));
  const bars = barPoints(parts);
  const points = [...beats, ...bars.filter(({ barIndex }) => !known.has(barIndex))].sort((a, b) => a.tick - b.tick).map((point, i, all) => ({ ...point, apart: point.apart || !joins(shown, all[i - 1], point) }));
  const middle = [...points.map(({ value }) => value)].sort((a, b) => a - b)[Math.floor(points.length / 2)];
  const rules = marked === null ? (middle === undefined ? [] : [{ value: middle, text: String(Math.round(middle)) }]) : [{ value: marked, text: `${Math.round(marked)}, marked` }];
  const near = beats.map(({ value }) => value).filter((value) => middle === undefined || Math.max(value / middle, middle / value) <= BEAT_TIMES);
  const values = [...bars.map(({ value }) => value), ...near, ...(marked === null ? [] : [marked])];
  const low = Math.min(...values) * (1 - TEMPO_ROOM);
  const title = beats.length > 0 ? 'Tempo by the beat' : `Tempo by ${word('bar', language)}`;
  return { title, curves: [{ name: '', points, second: false }], low, high: Math.max(Math.max(...values) * (1 + TEMPO_ROOM), low + 1), rules, words: [] };
}

/** One point a beat of the shown visits: its own length tells its tempo, up to the next beat of the stretch. */
function beatPoints({ score, shown, beats, names, unit, language }: TempoParts): readonly CurvePoint[] {
  return beats.flatMap(({ stretch, visitIndex, tick, onsetS }, i): CurvePoint[] => {
    const order = score.order[visitIndex];
    const visit = shown.get(order?.barIndex ?? -1);
    const bar = score.bars[order?.barIndex ?? -1];
    const [before, next] = [beats[i - 1], beats[i + 1]];
    if (order === undefined || bar === undefined || visit?.visitIndex !== visitIndex || visit.stretch !== stretch) return [];
    const beat = beatTicks(score, bar);
    // a bar that is cut short, by a repeat sign say, has a last beat of its own length
    if (next === undefined || next.stretch !== stretch || next.onsetS <= onsetS || next.tick - tick > beat) return [];
    const value = (60 * (next.tick - tick)) / (score.ticksPerQuarter * unit.crotchets * (next.onsetS - onsetS));
    const offset = tick - order.startTick;
    const place = beatPlace(score, { barIndex: order.barIndex, offset: offset / score.ticksPerQuarter }, language);
    const apart = before === undefined || before.stretch !== stretch || tick - before.tick > beat;
    return [{ tick: bar.startTick + offset, value, barIndex: order.barIndex, apart, title: `${names.long(order.barIndex)}, ${place}: ${Math.round(value)}` }];
  });
}

/** One point a shown bar. */
function barPoints({ score, shown, names, unit }: TempoParts): readonly CurvePoint[] {
  return [...shown].sort((a, b) => a[0] - b[0]).flatMap(([barIndex, visit]): CurvePoint[] => {
    if (!visit.tempo.measured) return [];
    const value = visit.tempo.value / unit.crotchets;
    return [{ tick: score.bars[barIndex]?.startTick ?? 0, value, barIndex, apart: false, title: `${names.long(barIndex)}: ${Math.round(value)}` }];
  });
}

/** True where one point follows another in the same or the next bar of one way of playing. */
function joins(shown: ReadonlyMap<number, BarFacts>, before: CurvePoint | undefined, point: CurvePoint): boolean {
  const [from, to] = [shown.get(before?.barIndex ?? -1), shown.get(point.barIndex)];
  return from !== undefined && to !== undefined && from.stretch === to.stretch && to.visitIndex - from.visitIndex <= 1 && to.visitIndex >= from.visitIndex;
}
