/**
 * The question: how fast is it meant to go here?
 * Conventions: written ticks in, seconds out, at the tempo in force where the stretch begins; small marks such as "rit." are
 * passed over.
 * Method: the score's figure in crotchets a minute; else its tempo word by the table below; else a middling tempo. Only
 * a printed figure is one that a sentence may name.
 * It does not tell how fast anybody plays.
 */
import { beatTicks, type Score } from '../score/index.js';
import type { TempoSource } from './handTypes.js';

/** The tempo from one written tick on. */
interface TempoSpan {
  readonly fromTick: number;
  readonly crotchetsPerMinute: number;
  readonly source: TempoSource;
}

/** A score's tempi, to be asked. */
export interface HandTempo {
  readonly secondsBetween: (fromTick: number, toTick: number) => number;
  readonly sourceAt: (tick: number) => TempoSource;
}

/** Beats a minute of tempo words, by how they begin. Common practice, no source; only to weigh speed, never said. */
const WORD_BEATS: readonly (readonly [RegExp, number])[] = [
  [/prestiss|vivaciss/i, 184],
  [/presto|sehr (rasch|schnell)/i, 168],
  [/vivac|vivo|quick|fast|schnell|rasch|vite|vif/i, 144],
  [/allegrett/i, 108],
  [/alleg|lively|lebhaft|bewegt|anim/i, 126],
  [/moderat|mäßig|massig|modéré|march|steady/i, 100],
  [/andantin/i, 84],
  [/andant|gently/i, 76],
  [/adagiett/i, 70],
  [/adag/i, 60],
  [/grave|larg|lent|langsam|slow/i, 50],
];

/** Beats a minute where the score says nothing: a middling tempo, so that nothing counts as fast by chance. */
const NO_TEMPO_BEATS = 84;

/** Dotted beats go slower than plain ones under the same word (common practice, no source). */
const DOTTED_BEAT_FACTOR = 0.7;

/** Reads a score's tempi. */
export function handTempo(score: Score): HandTempo {
  const spans = tempoSpans(score);
  const at = (tick: number): TempoSpan => spans[lastFrom(spans, tick)] ?? { fromTick: 0, crotchetsPerMinute: NO_TEMPO_BEATS, source: 'none' };
  return {
    secondsBetween: (fromTick, toTick) => ((toTick - fromTick) / score.ticksPerQuarter) * (60 / at(fromTick).crotchetsPerMinute),
    sourceAt: (tick) => at(tick).source,
  };
}

/** The tempi in order, the first from the start. */
function tempoSpans(score: Score): readonly TempoSpan[] {
  const beatOf = (barIndex: number): number => {
    const bar = score.bars[barIndex];
    return bar === undefined ? 1 : beatTicks(score, bar) / score.ticksPerQuarter;
  };
  const marks = score.directions.filter((mark) => mark.kind === 'tempo').toSorted((a, b) => a.onsetTick - b.onsetTick);
  const spans = marks.flatMap(({ value, text, onsetTick, barIndex }): readonly TempoSpan[] => {
    if (value !== null && value > 0) return [{ fromTick: onsetTick, crotchetsPerMinute: value, source: /= *\d/.test(text) ? 'printed' : 'file' }];
    const beats = WORD_BEATS.find(([pattern]) => pattern.test(text))?.[1];
    return beats === undefined ? [] : [{ fromTick: onsetTick, crotchetsPerMinute: asCrotchets(beats, beatOf(barIndex)), source: 'word' }];
  });
  const [first] = spans;
  if (first !== undefined && first.fromTick <= 0) return spans;
  // a mark in the first two bars holds for the upbeat before it, too
  const opening = first !== undefined && first.fromTick < (score.bars[2]?.startTick ?? Infinity) ? first : null;
  return [{ ...(opening ?? { crotchetsPerMinute: asCrotchets(NO_TEMPO_BEATS, beatOf(0)), source: 'none' }), fromTick: 0 }, ...spans];
}

/** Beats a minute as crotchets a minute; beats of 1.5, 0.75 or 3 crotchets are dotted. */
function asCrotchets(beats: number, crotchetsToTheBeat: number): number {
  const dotted = (crotchetsToTheBeat / 3) % 0.25 === 0;
  return beats * crotchetsToTheBeat * (dotted ? DOTTED_BEAT_FACTOR : 1);
}

/** Place of the last span that has begun. Binary search. */
function lastFrom(spans: readonly TempoSpan[], tick: number): number {
  let low = 0;
  let high = spans.length - 1;
  while (low < high) {
    const middle = Math.ceil((low + high) / 2);
    if ((spans[middle]?.fromTick ?? 0) <= tick) low = middle;
    else high = middle - 1;
  }
  return low;
}
