import { median, medianAbsoluteDeviation } from 'simple-statistics';
import { measured, notMeasured, type Measured } from '../base/index.js';
import type { HandTiming } from './types.js';

/** Fewest measured notes (>=) of a hand in a bar for a middle and a spread: of two, the spread is only their distance. */
export const TIMING_LEAST_NOTES = 3;

/** Makes the median absolute deviation of normal scatter equal its standard deviation: 1 / 0.67449. */
export const NORMAL_SCALE = 1.4826;

/** Median and spread of one hand's onset deviations in one bar, ms. */
export function handTiming(deviationsMs: readonly number[]): Measured<HandTiming> {
  if (deviationsMs.length === 0) return notMeasured('this hand has no note here whose onset could be measured');
  if (deviationsMs.length < TIMING_LEAST_NOTES) return notMeasured(`this hand has fewer than ${TIMING_LEAST_NOTES} notes here whose onset could be measured`);
  const values = [...deviationsMs];
  return measured({ notes: values.length, medianMs: median(values), scatterMs: NORMAL_SCALE * medianAbsoluteDeviation(values) });
}
