import { describe, expect, it } from 'vitest';
import { onsetDeviations } from '../../src/measure/onsetDeviation.js';
import { pulseAcrossWaits } from '../../src/measure/pulseAcrossWaits.js';
import type { PulsePoint } from '../../src/measure/pulsePoints.js';
import { stepsOf } from '../../src/measure/steps.js';
import { played, right, run, scoreOf, steady, TICKS } from './piece.js';

/** Crotchets of 0.5 s, each later by what is given for its place. */
function crotchets(count: number, lateS: (place: number) => number = () => 0): PulsePoint[] {
  return Array.from({ length: count }, (_, i) => ({ tick: i * TICKS, onsetS: 10 + i * 0.5 + lateS(i) }));
}

const waits = (points: readonly PulsePoint[]): number[] => stepsOf(points, TICKS).map(({ waitS }) => waitS);

describe('a wait is a step in time', () => {
  it('shows in the one gap where everything after comes later', () => {
    // 0.3 s before the ninth crotchet: that gap is 0.8 s where 0.5 is expected
    const steps = stepsOf(crotchets(16, (i) => (i >= 8 ? 0.3 : 0)), TICKS);
    const at = steps.find(({ tick }) => tick === 8 * TICKS);
    expect(at?.waitS).toBeCloseTo(0.3, 9);
    expect(at?.gapS).toBeCloseTo(0.8, 9);
    expect(at?.expectedS).toBeCloseTo(0.5, 9);
    for (const { tick, waitS } of steps) if (tick !== 8 * TICKS) expect(waitS).toBeCloseTo(0, 9);
  });

  it('is not made by one late note, the next on time again', () => {
    for (const waitS of waits(crotchets(16, (i) => (i === 8 ? 0.04 : 0)))) expect(waitS).toBeLessThanOrEqual(1e-9);
  });

  it('is not made by a lilt: long and short quavers', () => {
    // quavers of 0.3 and 0.2 s: a crotchet always takes 0.5 s, so each gap is 0.05 s off and nothing after it is
    const lilting = Array.from({ length: 32 }, (_, i) => ({ tick: (i * TICKS) / 2, onsetS: Math.floor(i / 2) * 0.5 + (i % 2 === 1 ? 0.3 : 0) }));
    for (const waitS of waits(lilting)) expect(waitS).toBeLessThanOrEqual(0.05 + 1e-9);
  });

  it('the last two gaps have too little after them: three moments are asked', () => {
    expect(stepsOf(crotchets(16), TICKS).map(({ tick }) => tick / TICKS)).toEqual(Array.from({ length: 13 }, (_, i) => i + 1));
  });

  it('a slowing just before it is told: the crotchet before took 0.75 s at 0.5 s a crotchet', () => {
    const steps = stepsOf(crotchets(16, (i) => (i >= 9 ? 0.55 : i >= 8 ? 0.25 : 0)), TICKS);
    expect(steps.find(({ tick }) => tick === 9 * TICKS)?.prepared).toBeCloseTo(1.5, 9);
    expect(steps.find(({ tick }) => tick === 4 * TICKS)?.prepared).toBe(1);
  });
});

describe('the pulse does not reach across a wait', () => {
  it.each([0.2, 0.4, 0.9])('%f s: only the moment that was waited for stands late, by all of it', (waitS) => {
    const score = scoreOf(run(right, 32));
    const piece = played(score, { clock: (c) => 0.5 * c + (c >= 16 ? waitS : 0) });
    onsetDeviations(piece).forEach(({ deviationMs }, i) => {
      if (deviationMs.measured) expect(deviationMs.value).toBeCloseTo(i === 16 ? 1000 * waitS : 0, 6);
    });
  });

  it('a late note before a wait keeps its whole deviation', () => {
    const piece = played(scoreOf(run(right, 32)), { clock: (c) => 0.5 * c + (c >= 16 ? 0.4 : 0), shiftMs: ({ index }) => (index === 13 ? 40 : 0) });
    const late = onsetDeviations(piece)[13]?.deviationMs;
    expect(late?.measured === true && late.value).toBeCloseTo(40, 6);
  });

  it('a step of 59 ms is left in the clock, one of 130 ms is not', () => {
    // the moment itself is left out: with the step in the clock, lines from before to after run half way, 30 ms late of the clock before
    const at = (waitS: number): number => (pulseAcrossWaits({ right: crotchets(16, (i) => (i >= 8 ? waitS : 0)), left: [] }, TICKS)(8 * TICKS) ?? NaN) - 14;
    expect(at(0.13)).toBeCloseTo(0, 9);
    expect(at(0.059)).toBeGreaterThan(0.02);
  });

  it('steady playing has no wait', () => {
    for (const { deviationMs } of onsetDeviations(played(scoreOf(run(right, 16)), { clock: steady(0.5) }))) if (deviationMs.measured) expect(deviationMs.value).toBeCloseTo(0, 6);
  });
});
