import { measured, notMeasured, type Measured } from '../base/index.js';
import { firstAtOrAfter, type PulsePoint } from './pulsePoints.js';

/** Shortest way (>=) from which a tempo is drawn, crotchets: over less, the scatter of single fingers outweighs the tempo. */
export const TEMPO_LEAST_CROTCHETS = 1;

/** A bar's place in unfolded ticks; `toTick` is exclusive. */
export interface BarSpan {
  readonly fromTick: number;
  readonly toTick: number;
  readonly ticksPerQuarter: number;
}

/**
 * Tempo over a bar, crotchets a minute, from its first moment to the first of the next bar, else to its own last one.
 * @param moments of one stretch, by tick
 */
export function barTempo(moments: readonly PulsePoint[], { fromTick, toTick, ticksPerQuarter }: BarSpan): Measured<number> {
  const first = moments[firstAtOrAfter(moments, fromTick)];
  const end = firstAtOrAfter(moments, toTick);
  const last = moments[end]?.tick === toTick ? moments[end] : moments[end - 1];
  if (first === undefined || last === undefined || first.tick >= toTick) return notMeasured('nothing was played in this bar');
  const crotchets = (last.tick - first.tick) / ticksPerQuarter;
  const seconds = last.onsetS - first.onsetS;
  if (crotchets < TEMPO_LEAST_CROTCHETS) return notMeasured('less than a crotchet of this bar lies between its first and last onset');
  if (seconds <= 0) return notMeasured('the bar was not played in its written order');
  return measured((crotchets / seconds) * 60);
}
