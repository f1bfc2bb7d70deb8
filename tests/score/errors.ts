import { expect } from 'vitest';
import { InputError, type InputErrorCode, type InputPlace } from '../../src/base/index.js';

/** Expects an `InputError` of that code, with a sentence and a place that fit. */
export function expectInputError(
  run: () => unknown,
  code: InputErrorCode,
  fits: { readonly says?: RegExp; readonly place?: InputPlace } = {},
): void {
  let caught: unknown = null;
  try {
    run();
  } catch (error) {
    caught = error;
  }
  expect(caught).toBeInstanceOf(InputError);
  if (!(caught instanceof InputError)) return;
  expect(caught.code).toBe(code);
  expect(caught.message).toMatch(fits.says ?? /expected/);
  if (fits.place !== undefined) expect(caught.place).toMatchObject(fits.place);
}
