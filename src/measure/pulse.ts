import { bothHands, type PulseLines } from './pulsePoints.js';
import { expectedBends } from './expectedBends.js';
import { barPulses } from './barPulse.js';
import { beatCurve } from './beatCurve.js';
import type { Analysis } from '../analysis/index.js';
import type { Piece } from './piece.js';
import { isWait, waitedBefore, withoutWait, type PulseRun } from './pulseAcrossWaits.js';
import type { PulseFacts } from './pulseTypes.js';
import { stepsOf } from './steps.js';
import { tempoBends } from './tempoBends.js';
import { tempoSpans } from './tempoSpans.js';
import type { BarFacts } from './types.js';
import { waitsOf } from './waits.js';

/** What was measured before. */
export interface PulseGround {
  readonly bars: readonly BarFacts[];
  /** What `pulseLines` gave, by stretch. */
  readonly lines: readonly PulseLines[];
  readonly runs: readonly (readonly PulseRun[])[];
}

/** All facts of pulse and tempo. */
export function pulseFacts(piece: Piece & { readonly analysis: Analysis }, { bars, lines, runs }: PulseGround): PulseFacts {
  const { score, analysis, alignment } = piece;
  const moments = lines.map(bothHands);
  const stretches = moments.map((points, stretch) => ({ stretch, steps: stepsOf(points, score.ticksPerQuarter) }));
  const waits = waitsOf({ piece, analysis, bars, stretches });
  const steadyMoments = moments.map((points, stretch) => withoutWait(points, waitedBefore((stretches[stretch]?.steps ?? []).filter(isWait))));
  const pulses = barPulses({ score, bars, moments: steadyMoments, waits, bends: expectedBends(score, analysis) });
  return { bars: pulses, waits, beats: beatCurve(score, alignment.route, runs), spans: tempoSpans(score, bars, pulses), bends: tempoBends(score, alignment.route, moments) };
}
