import { localPulse, type Pulse } from './localPulse.js';
import { bothHands, cutAtStops, firstAtOrAfter, type PulseLines, type PulsePoint } from './pulsePoints.js';
import { stepsOf, type Step } from './steps.js';

/**
 * A wait from here on (>=), seconds, is taken out of the clock: above 60 ms the order of two onsets is heard surely (references: 75 % right at
 * 22 ms, very high above 60 ms), and below it the scatter of single fingers looks the same.
 */
const CLOCK_WAIT_S = 0.06;

/** It also lasts at least this share (>=) of the time that the gap should take: 6 % of a single interval is just heard (Drake and Botte 1993), a free player bends more. */
const CLOCK_WAIT_SHARE = 0.25;

/** A run on a clock that stands still while the playing waits. */
interface WaitlessRun {
  readonly lines: PulseLines;
  /** Seconds that had been waited before a tick, the wait for the tick itself left out. */
  readonly waitedS: (tick: number) => number;
}

/**
 * The local pulse of a run without a stop, waits and all. A wait is a step in time: all that follows comes later by as much. Lines
 * through onsets on both of its sides would spread it over the notes around, so it is taken out of the clock
 * before the pulse is told, and put back after. The moment that was waited for is expected where it would have come without the wait, so that it
 * stands late by all of it; what follows is held against the clock that goes on from there.
 */
export function pulseAcrossWaits(run: PulseLines, ticksPerQuarter: number): Pulse {
  const { lines, waitedS } = withoutWaits(run, ticksPerQuarter);
  const pulse = localPulse(lines, ticksPerQuarter);
  return (tick) => {
    const onsetS = pulse(tick);
    return onsetS === null ? null : onsetS + waitedS(tick);
  };
}

/** A run of playing without a stop, and its pulse. */
export interface PulseRun {
  readonly lines: PulseLines;
  readonly pulse: Pulse;
}

/** The runs of every stretch of the route. @param stretches what `pulseLines` gave */
export function pulseRuns(stretches: readonly PulseLines[], ticksPerQuarter: number): readonly (readonly PulseRun[])[] {
  return stretches.map((lines) => cutAtStops(lines).map((run) => ({ lines: run, pulse: pulseAcrossWaits(run, ticksPerQuarter) })));
}

/** Takes the waits out of the clock. */
function withoutWaits(run: PulseLines, ticksPerQuarter: number): WaitlessRun {
  const waitedS = waitedBefore(stepsOf(bothHands(run), ticksPerQuarter).filter(isWait));
  return { lines: { right: withoutWait(run.right, waitedS), left: withoutWait(run.left, waitedS) }, waitedS };
}

/** Seconds waited before any tick, the wait for the tick itself left out. @param waits in order of ticks */
export function waitedBefore(waits: readonly Step[]): (tick: number) => number {
  let sumS = 0;
  const sums = waits.map(({ tick, waitS }) => ({ tick, onsetS: (sumS += waitS) }));
  return (tick) => sums[firstAtOrAfter(sums, tick) - 1]?.onsetS ?? 0;
}

/** Moments on a clock that stands still while the playing waits. */
export function withoutWait(points: readonly PulsePoint[], waitedS: (tick: number) => number): readonly PulsePoint[] {
  return points.map(({ tick, onsetS }) => ({ tick, onsetS: onsetS - waitedS(tick + 1) }));
}

/** True for a step long enough to be no scatter. */
export function isWait({ waitS, expectedS }: Step): boolean {
  return waitS >= CLOCK_WAIT_S && waitS >= CLOCK_WAIT_SHARE * expectedS;
}
