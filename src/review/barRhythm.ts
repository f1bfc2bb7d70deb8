import { measured, type Measured } from '../base/index.js';
import type { BarRhythm, BeatTiming, HandsApart } from '../measure/index.js';

/**
 * Rhythm of one visit to a bar as files name it: milliseconds to a tenth, ratios to a hundredth.
 * @throws RangeError for a visit that was not made
 */
export function reportedRhythm(bars: readonly BarRhythm[], place: number): BarRhythm {
  const bar = bars[place];
  if (bar === undefined) throw new RangeError(`no rhythm of visit ${place}`);
  const { apart, steps, right, left } = bar;
  return { apart: apart.measured ? measured(reportedApart(apart.value)) : apart, steps: reportedRatio(steps), right: right.map(reportedTiming), left: left.map(reportedTiming) };
}

/** Milliseconds to a tenth. */
function reportedApart({ moments, medianMs, scatterMs }: HandsApart): HandsApart {
  return { moments, medianMs: to(medianMs, 10), scatterMs: to(scatterMs, 10) };
}

/** Milliseconds to a tenth. */
function reportedTiming(timing: BeatTiming): BeatTiming {
  return { ...timing, medianMs: to(timing.medianMs, 10) };
}

/** To a hundredth. */
function reportedRatio(ratio: Measured<number>): Measured<number> {
  return ratio.measured ? measured(to(ratio.value, 100)) : ratio;
}

/** Rounded to one part in `parts`. */
function to(value: number, parts: number): number {
  return Math.round(value * parts) / parts;
}
