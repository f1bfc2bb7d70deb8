import { describe, expect, it } from 'vitest';
import { endTempoFor, fitRitardando, ritardandoTempo, ritardandoTime } from '../../src/measure/ritardando.js';

describe('tempo on the curve (Friberg and Sundberg 1999, formula recalled), end tempo one half', () => {
  it.each([[3, 0.25, 0.921], [3, 0.5, 0.8255], [3, 0.75, 0.7005], [2, 0.25, 0.9014], [2, 0.5, 0.7906], [2, 0.75, 0.6614]])('q = %i at %f', (q, x, tempo) => {
    expect(ritardandoTempo({ endTempo: 0.5, q }, x)).toBeCloseTo(tempo, 4);
  });

  it.each([2, 3])('q = %i begins at the tempo before and ends at half of it', (q) => {
    expect(ritardandoTempo({ endTempo: 0.5, q }, 0)).toBe(1);
    expect(ritardandoTempo({ endTempo: 0.5, q }, 1)).toBeCloseTo(0.5, 12);
  });
});

describe('time on the curve', () => {
  // q = 2: the integral of (1 + (w^2 - 1) x)^(-1/2) from 0 to 1 is 2 / (1 + w): at w = 1/2 4/3
  // q = 3: that of (1 + (w^3 - 1) x)^(-1/3) is 1.5 (w^2 - 1) / (w^3 - 1): at w = 1/2 1.5 * 0.75 / 0.875 = 9/7
  it.each([[2, 4 / 3], [3, 9 / 7]])('q = %i to half tempo takes %f of the steady time', (q, times) => {
    expect(ritardandoTime({ endTempo: 0.5, q }, 1)).toBeCloseTo(times, 12);
    expect(endTempoFor(times, q)).toBeCloseTo(0.5, 8);
  });

  it('no change takes the steady time', () => {
    expect(ritardandoTime({ endTempo: 1, q: 2 }, 0.3)).toBe(0.3);
    expect(endTempoFor(1, 3)).toBeCloseTo(1, 6);
  });

  it('a quickening takes less: q = 2 to twice the tempo 2 / (1 + 2)', () => {
    expect(endTempoFor(2 / 3, 2)).toBeCloseTo(2, 8);
  });
});

describe('the better of both curves', () => {
  it('onsets on the square curve: worked by 2 (1 - sqrt(1 - 0.75 x)) / 0.75', () => {
    const fit = fitRitardando([0.25, 0.5, 0.75, 1].map((x) => ({ x, time: (2 * (1 - Math.sqrt(1 - 0.75 * x))) / 0.75 })));
    expect(fit?.q).toBe(2);
    expect(fit?.endTempo).toBeCloseTo(0.5, 8);
    expect(fit?.off).toBeCloseTo(0, 8);
  });

  it('all of the slowing in the last quarter is far from both', () => {
    // three quarters in tempo, the last at a third of it: 0.75 + 0.25 * 3 = 1.5 of the steady time
    const fit = fitRitardando([{ x: 0.25, time: 0.25 }, { x: 0.5, time: 0.5 }, { x: 0.75, time: 0.75 }, { x: 1, time: 1.5 }]);
    expect(fit?.off).toBeGreaterThan(0.15);
  });

  it('no onset, or none at the end, is not fitted', () => {
    expect(fitRitardando([])).toBeNull();
    expect(fitRitardando([{ x: 0.5, time: 0.5 }])).toBeNull();
  });
});
