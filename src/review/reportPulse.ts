/** Pulse of one visit to a bar as it goes out in files: ratios to a thousandth. */
import { measured, type Measured } from '../base/index.js';
import type { BarPulse, PulseFacts } from '../measure/index.js';

/** @param place place in `Measures.bars` */
export function pulseOf({ bars }: PulseFacts, place: number): BarPulse {
  const bar = bars[place];
  if (bar === undefined) throw new RangeError(`no pulse of visit ${place}`);
  const { tempo, againstAround, offNeighbours, drift, unevenness, waitBeats, bends } = bar;
  return { tempo: toThousandths(tempo), againstAround: toThousandths(againstAround), offNeighbours: toThousandths(offNeighbours), drift: toThousandths(drift), unevenness: toThousandths(unevenness), waitBeats: thousandths(waitBeats), bends };
}

/** A measured value rounded. */
function toThousandths(value: Measured<number>): Measured<number> {
  return value.measured ? measured(thousandths(value.value)) : value;
}

/** Three decimals. */
function thousandths(value: number): number {
  return Math.round(value * 1000) / 1000;
}
