import { expect, test } from 'vitest';
import { composed, moved, movedBox, parseTransform } from '../../src/engrave/transform.js';

const close = (point: { x: number; y: number }, x: number, y: number): void => {
  expect(point.x).toBeCloseTo(x, 9);
  expect(point.y).toBeCloseTo(y, 9);
};

test('translate then scale, as written: the scale works first on the point', () => {
  close(moved(parseTransform('translate(10, 20) scale(2, 3)'), { x: 1, y: 1 }), 12, 23);
});

test('rotation about a point leaves it and turns its neighbour by a quarter', () => {
  const turn = parseTransform('rotate(-90 5,5)');
  close(moved(turn, { x: 5, y: 5 }), 5, 5);
  // y grows downwards: a quarter against the clock takes what lies right to above
  close(moved(turn, { x: 6, y: 5 }), 5, 4);
});

test('one number scales both ways, translate without y stays level', () => {
  close(moved(parseTransform('scale(2)'), { x: 1, y: 1 }), 2, 2);
  close(moved(parseTransform('translate(3)'), { x: 1, y: 1 }), 4, 1);
});

test('nothing and unknown steps change nothing', () => {
  close(moved(parseTransform(undefined), { x: 1, y: 2 }), 1, 2);
  close(moved(parseTransform('skewX(20)'), { x: 1, y: 2 }), 1, 2);
});

test('a box stays upright when turned', () => {
  const box = movedBox(composed(parseTransform('translate(10 0)'), parseTransform('scale(1,-1)')), { left: 0, top: 1, right: 2, bottom: 5 });
  expect(box).toEqual({ left: 10, top: -5, right: 12, bottom: -1 });
});
