import { expect, test } from 'vitest';
import { parsePath, pathBox, boxesAlong } from '../../src/engrave/path.js';

test('a cubic arch is as high as three quarters of its handles', () => {
  // B(1/2) of 0, -100, -100, 0 is 3/8·(-100) + 3/8·(-100) = -75
  expect(pathBox('M0 0 C0 -100 100 -100 100 0')).toEqual({ left: 0, top: -75, right: 100, bottom: 0 });
});

test('a quadratic arch is half as high as its handle', () => {
  // B(1/2) of 0, -80, 0 is 1/2·(-80) = -40
  const box = pathBox('M0 0 Q50 -80 100 0');
  expect(box?.top).toBeCloseTo(-40, 9);
});

test('small letters count from where the pen is', () => {
  expect(pathBox('m10 10 l5 0 v5 h-5 z')).toEqual({ left: 10, top: 10, right: 15, bottom: 15 });
});

test('numbers may stand without spaces, and pairs after M are lines', () => {
  expect(parsePath('M1-2 3,4 5 .5')).toHaveLength(2);
  expect(pathBox('M1-2 3,4')).toEqual({ left: 1, top: -2, right: 3, bottom: 4 });
});

test('S reflects the last handle', () => {
  // the reflected handle of (50, -40) about (100, 0) is (150, 40): the second arch hangs down
  const box = pathBox('M0 0 C0 0 50 -40 100 0 S200 0 200 0');
  expect(box?.bottom).toBeGreaterThan(10);
});

test('an empty path has no box', () => {
  expect(pathBox('')).toBeNull();
  expect(pathBox('M4 4')).toBeNull();
});

test('boxes along a slur follow it: at its ends they are far lower than its top', () => {
  const [arch] = parsePath('M0 0 C0 -100 100 -100 100 0');
  const boxes = boxesAlong(arch!, 10);
  expect(boxes).toHaveLength(10);
  // B(0.1) = 3·0.1·0.81·(-100)·… = 3·0.9²·0.1·(-100) + 3·0.9·0.1²·(-100) = -24.3 - 2.7 = -27
  expect(boxes[0]!.top).toBeCloseTo(-27, 9);
});
