/** A value that could be measured, or the reason in words why it could not. Never 0, NaN or null instead. */
export type Measured<T> =
  | { readonly measured: true; readonly value: T }
  | { readonly measured: false; readonly reason: string };

/** Wraps a value that was measured. */
export function measured<T>(value: T): Measured<T> {
  return { measured: true, value };
}

/** Says why something was not measured, as the end of "not measured, because …". */
export function notMeasured(reason: string): { readonly measured: false; readonly reason: string } {
  return { measured: false, reason };
}
