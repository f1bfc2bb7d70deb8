import { expect, it } from 'vitest';
import { measured, notMeasured, type Measured } from '../../src/base/index.js';

it('wraps a value, 0 and empty text included', () => {
  expect(measured(0)).toEqual({ measured: true, value: 0 });
  expect(measured('')).toEqual({ measured: true, value: '' });
});

it('says why there is none, and then holds no value', () => {
  const none: Measured<number> = notMeasured('nothing was played');
  expect(none).toEqual({ measured: false, reason: 'nothing was played' });
  expect('value' in none).toBe(false);
});
