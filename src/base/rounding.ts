/** Four decimals, as reports give seconds and shares: a tenth of a millisecond. */
export function fourDecimals(value: number): number {
  return Math.round(value * 10_000) / 10_000;
}
