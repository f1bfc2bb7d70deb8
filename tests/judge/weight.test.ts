import { describe, expect, it } from 'vitest';
import { concernOf, severityOf, weightOf } from '../../src/judge/index.js';

describe('severity', () => {
  it('is nothing below the threshold and 0.3 at it', () => {
    expect(severityOf(0.999)).toBe(0);
    expect(severityOf(1)).toBeCloseTo(0.3, 10);
  });

  it('grows ever more slowly: by hand 1 - 0.7 / 2^0.8 = 0.598, 1 - 0.7 / 4^0.8 = 0.769', () => {
    // 2^0.8 = 1.7411, 4^0.8 = 3.0314
    expect(severityOf(2)).toBeCloseTo(0.598, 3);
    expect(severityOf(4)).toBeCloseTo(0.769, 3);
    expect(severityOf(1e9)).toBeLessThan(1);
  });
});

describe('weight and concern', () => {
  it('one place weighs its severity times its confidence', () => {
    expect(weightOf([{ severity: 0.6, confidence: 0.5 }])).toBeCloseTo(0.3, 10);
  });

  it('further places add a little each: 1 - (1 - 0.6) (1 - 0.15 × 0.4) = 0.624', () => {
    expect(weightOf([{ severity: 0.4, confidence: 1 }, { severity: 0.6, confidence: 1 }])).toBeCloseTo(0.624, 10);
  });

  it('concern counts further observations by half: 1 - (1 - 0.6) (1 - 0.5 × 0.4) = 0.68; nothing found is no concern', () => {
    expect(concernOf([0.4, 0.6])).toBeCloseTo(0.68, 10);
    expect(concernOf([])).toBe(0);
  });
});
