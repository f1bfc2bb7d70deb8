import { describe, expect, it } from 'vitest';
import { levelDbOf, togetherDb } from '../../src/measure/velocityLevel.js';

/** Dannenberg, The interpretation of MIDI velocity (ICMC 2006, 193-196): the formula; the decibels are worked out from it. */
describe('velocity as a level', () => {
  it.each([[1, -40], [32, -19.72], [64, -10.39], [90, -5.33], [100, -3.72], [127, 0]])('velocity %i is %f dB on an instrument of 40 dB', (velocity, level) => {
    expect(levelDbOf(velocity)).toBeCloseTo(level, 2);
  });

  it('an instrument of 60 dB spreads them wider', () => {
    expect(levelDbOf(64, 60)).toBeCloseTo(-11.5, 2);
    expect(levelDbOf(1, 60)).toBeCloseTo(-60, 6);
  });
});

describe('sounds together', () => {
  it('two equal ones are 10 log 2 = 3.01 dB louder than one, ten are 10 dB louder', () => {
    expect(togetherDb([-20, -20])).toBeCloseTo(-16.99, 2);
    expect(togetherDb(Array.from({ length: 10 }, () => -30))).toBeCloseTo(-20, 9);
  });

  it('one that is 10 dB softer adds a tenth of the energy: 10 log 1.1 = 0.41 dB', () => {
    expect(togetherDb([0, -10])).toBeCloseTo(0.41, 2);
  });
});
