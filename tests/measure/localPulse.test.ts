import { describe, expect, it } from 'vitest';
import { localPulse } from '../../src/measure/localPulse.js';
import type { PulsePoint } from '../../src/measure/pulsePoints.js';
import { TICKS } from './piece.js';

/** Points on a steady line of 0.5 s a crotchet, a step of so many ticks apart, from the first place to the last. */
function line(step: number, from: number, to: number): PulsePoint[] {
  return Array.from({ length: to - from + 1 }, (_, i) => ({ tick: (from + i) * step, onsetS: 100 + ((from + i) * step * 0.5) / TICKS }));
}

const alone = (points: readonly PulsePoint[], tick: number): number | null => localPulse({ right: points, left: [] }, TICKS)(tick);

describe('which onsets are asked', () => {
  it('of quick notes six on either side: what lies beyond them does not count', () => {
    // demisemiquavers; everything more than six places later is a second late (on one side only: of the neighbours' own
    // deviations, which reach farther, half are 0, and so nothing is taken for a change of tempo)
    const points = line(TICKS / 8, -16, 16).map((point, i) => i - 16 > 6 ? { ...point, onsetS: point.onsetS + 1 } : point);
    expect(alone(points, 0)).toBeCloseTo(100, 9);
  });

  it('of slower notes those within two crotchets, but at least three on either side', () => {
    // quavers: four on either side are within two crotchets
    const late = (distance: number): number | null => alone(line(TICKS / 2, -9, 9).map((point) => point.tick >= distance * (TICKS / 2) ? { ...point, onsetS: point.onsetS + 1 } : point), 0);
    expect(late(5)).toBeCloseTo(100, 9);
    expect(late(2)).not.toBeCloseTo(100, 1);
    // crotchets: three on either side, though the third is three crotchets away; one wrong one among them cannot sway the median
    expect(alone(line(TICKS, -3, 3).map((point) => point.tick === TICKS ? { ...point, onsetS: point.onsetS + 0.04 } : point), 0)).toBeCloseTo(100, 9);
  });

  it('onsets on one side only give no pulse, nor do none', () => {
    expect(alone(line(TICKS, 1, 8), 0)).toBeNull();
    expect(alone(line(TICKS, -8, -1), 0)).toBeNull();
    expect(alone([], 0)).toBeNull();
  });

  it('a tick that was not played has a pulse as well', () => {
    expect(alone(line(TICKS, -3, 3), TICKS / 2)).toBeCloseTo(100.25, 9);
  });
});

it('a tick asked twice has the same answer', () => {
  const pulse = localPulse({ right: line(TICKS, -3, 3), left: [] }, TICKS);
  expect([pulse(0), pulse(0), pulse(99 * TICKS), pulse(99 * TICKS)]).toEqual([100, 100, null, null]);
});
