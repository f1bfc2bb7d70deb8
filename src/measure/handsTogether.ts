/*
 * The teacher's question: do the hands strike together, and if not, which of them is behind?
 *
 * Conventions: ms, left minus right: positive where the left hand is behind. One entry for every tick at which both hands strike.
 * Method: the onset of a hand is the median of its notes there. A bar gets the median and the scaled median absolute deviation of its moments.
 * Source: our own rule. That a tune leads by 20-30 ms is normal (Goebl 2001), that order is heard in three of four cases from
 *   22 ms and nearly always from 60 ms on (Sapp), is for the judge.
 * What it does not tell: whether it is style, or which hand is off the pulse. Grace notes, ornaments and rolls are left out; notes after grace
 *   notes are the caller's to leave out.
 */
import { median, medianAbsoluteDeviation } from 'simple-statistics';
import { measured, notMeasured, type Measured } from '../base/index.js';
import { visitAtTick, type Score } from '../score/index.js';
import { NORMAL_SCALE, TIMING_LEAST_NOTES } from './handTiming.js';
import type { PulseLines } from './pulsePoints.js';
import type { HandsApart, HandsMoment } from './rhythmTypes.js';

/** Every moment of one stretch at which both hands strike. @param lines of that stretch */
export function handsMoments(score: Score, lines: PulseLines, stretch: number): readonly HandsMoment[] {
  const left = new Map(lines.left.map((point, place) => [point.tick, { ...point, nextS: lines.left[place + 1]?.onsetS }]));
  return lines.right.flatMap(({ tick, onsetS }, place): readonly HandsMoment[] => {
    const other = left.get(tick);
    if (other === undefined) return [];
    const lateS = other.onsetS - onsetS;
    const [firstS, nextS] = lateS >= 0 ? [onsetS, lines.right[place + 1]?.onsetS] : [other.onsetS, other.nextS];
    const ofStep = nextS === undefined || nextS <= firstS ? null : Math.abs(lateS) / (nextS - firstS);
    return [{ stretch, visitIndex: visitAtTick(score, tick).index, tick, leftLateMs: lateS * 1000, ofStep }];
  });
}

/** How far apart the hands were over the moments of one bar. */
export function handsApart(moments: readonly HandsMoment[]): Measured<HandsApart> {
  if (moments.length === 0) return notMeasured('the hands strike nothing together here');
  if (moments.length < TIMING_LEAST_NOTES) return notMeasured(`the hands strike fewer than ${TIMING_LEAST_NOTES} moments together here`);
  const values = moments.map(({ leftLateMs }) => leftLateMs);
  return measured({ moments: values.length, medianMs: median(values), scatterMs: NORMAL_SCALE * medianAbsoluteDeviation(values) });
}
