/** A coordinate as short text: two decimals, a hundredth of a pixel being finer than any screen. */
export function fixed(value: number): string {
  return String(Math.round(value * 100) / 100 || 0);
}
