/**
 * The question: where are the beats of a bar?
 * Conventions: ticks; `leadTicks` is what a short bar lacks at its beginning, so that an upbeat of one crotchet in 3/4
 * stands on the third beat.
 * Method: compound time (6, 9, 12 … of a value) has beats of three values (common practice); other times have the beats
 * that their signature names. A short bar that opens the piece, or that fills up the short bar before it, is counted from
 * its end, any other from its beginning.
 * It does not tell groupings of irregular times (5, 7 …): there every unit is a beat.
 */
import { beatTicks, type Bar, type Score, type TimeSignature } from '../score/index.js';

/** A bar laid out in beats. */
export interface BarMetre {
  readonly bar: Bar;
  readonly beatTicks: number;
  readonly beats: number;
  /** Whether the beat is dotted. */
  readonly compound: boolean;
  /** Ticks of the full bar that come before this bar's first tick; 0 for full bars. */
  readonly leadTicks: number;
  /** False for bars longer than their signature, such as written-out cadenzas: they have no beat to hide. */
  readonly regular: boolean;
}

/** True for 6, 9, 12 … of a value. */
export function isCompound(time: TimeSignature): boolean {
  return time.beats > 3 && time.beats % 3 === 0;
}

/** Every bar laid out in beats. */
export function barMetres(score: Score): readonly BarMetre[] {
  return score.bars.map((bar, i) => {
    const beat = beatTicks(score, bar);
    return {
      bar,
      beatTicks: beat,
      beats: Math.max(1, Math.round(bar.nominalTicks / beat)),
      compound: isCompound(bar.time),
      leadTicks: leadOf(bar, score.bars[i - 1]),
      regular: bar.lengthTicks <= bar.nominalTicks && beat > 0,
    };
  });
}

/** What a short bar lacks at its beginning. */
function leadOf(bar: Bar, before: Bar | undefined): number {
  const lacks = bar.nominalTicks - bar.lengthTicks;
  if (lacks <= 0) return 0;
  const fillsUp = before !== undefined && before.lengthTicks < before.nominalTicks && before.lengthTicks + bar.lengthTicks === bar.nominalTicks;
  return before === undefined || fillsUp ? lacks : 0;
}

/** Place of a written tick in its full bar, ticks from the bar's first beat. */
export function offsetInBar(metre: BarMetre, tick: number): number {
  return tick - metre.bar.startTick + metre.leadTicks;
}

/**
 * How a full bar divides, level by level: [2, 2] for 4/4, [3] for 3/4, [2, 3] for 6/8, [3, 3] for 9/8, [2, 2, 3] for 12/8.
 * The last level of compound time is its unit, of simple time its beat.
 */
export function metreDivisions(time: TimeSignature): readonly number[] {
  const compound = isCompound(time);
  const beats = compound ? time.beats / 3 : time.beats;
  return [...primeFactors(beats), ...(compound ? [3] : [])];
}

/** Prime factors, smallest first. */
function primeFactors(value: number): readonly number[] {
  const factors: number[] = [];
  let left = Math.max(1, Math.floor(value));
  for (let factor = 2; left > 1; factor += 1) {
    for (; left % factor === 0; left /= factor) factors.push(factor);
  }
  return factors;
}
