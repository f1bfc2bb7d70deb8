import { describe, expect, it } from 'vitest';
import { differs, differsInShape, scatterOf, type Values } from '../../src/progress/scatter.js';

/** Values at the places 0, 1, 2 … */
function at(...values: readonly number[]): Values {
  return new Map(values.map((value, place) => [place, value]));
}

const zeros = at(0, 0, 0, 0, 0, 0, 0, 0);

describe('scatter of two recordings', () => {
  it('is the lower quarter of the differences by 0.3186, the quarter of a normal distribution (standard tables: P(|z| < 0.3186) = 0.25)', () => {
    // the middle of the differences is -0.5, and around it they lie wider: 1.5, 1.5, 3.5 …;
    // around 0 sizes 1 to 8: the lower quarter lies three quarters of the way from the second to the third, 2.75; 2.75 / 0.3186 = 8.6315
    expect(scatterOf(at(1, -2, 3, -4, 5, -6, 7, -8), zeros)).toBeCloseTo(8.6315, 3);
  });

  it('is not known from seven differences', () => {
    expect(scatterOf(at(1, -2, 3, -4, 5, -6, 7), zeros)).toBe(0);
  });

  it('what is other all through does not hide itself', () => {
    // ten at every place but for one: around their middle the lower quarter is 0
    const quicker = at(10, 10, 10, 10, 10, 10, 10, 11);
    expect(scatterOf(quicker, zeros)).toBe(0);
    expect(differs(quicker, zeros, { places: [0], floor: 6 })).toBe(true);
  });

  it('a fault over half of the piece does not hide itself', () => {
    // four places differ by 100, four by 1: the lower quarter is 1, the scatter 3.14, three of it 9.4
    const faulty = at(100, 100, 100, 100, 1, 1, 1, 1);
    expect(differs(faulty, zeros, { places: [0], floor: 2 })).toBe(true);
    expect(differs(faulty, zeros, { places: [4], floor: 2 })).toBe(false);
  });
});

describe('a difference', () => {
  it('counts from the floor on, where scatter is less', () => {
    const later = at(0, 0, 0, 0, 0, 0, 3, 2.9);
    expect(differs(later, zeros, { places: [6], floor: 3 })).toBe(true);
    expect(differs(later, zeros, { places: [7], floor: 3 })).toBe(false);
  });

  it('cannot be denied where one of the two has no value', () => {
    expect(differs(at(0), new Map(), { places: [0], floor: 3 })).toBe(true);
  });
});

describe('a difference of shape', () => {
  it('leaves out what all places have in common', () => {
    // a quicker playing by a tenth that hurries no more: 0.1 everywhere; one that hurries by 0.12 from the first to the last
    expect(differsInShape(at(0.1, 0.1, 0.1), zeros, { places: [0, 1, 2], floor: 0.06 })).toBe(false);
    expect(differsInShape(at(0, 0.06, 0.12), zeros, { places: [0, 1, 2], floor: 0.06 })).toBe(true);
  });
});
