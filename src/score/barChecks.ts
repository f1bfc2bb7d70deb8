/**
 * Question: does a bar hold what its time signature says, and if not, is there a reason that musicians know?
 * Conventions: ticks of the score; both directions are looked at; nothing is changed, only said. Our own rule.
 */
import type { BarSigns } from './navigation.js';
import type { Bar } from './types.js';
import type { WarningList } from './warnings.js';

/**
 * By how much, in crotchets, a bar may differ from its time signature without a word (inclusive): what programs round
 * away in tuplets and written-out ornaments.
 */
const ROUNDING_QUARTERS = 1 / 16;

/** Warns of bars that hold more or less than their time signature says, where no upbeat or split bar explains it. */
export function checkBars(
  bars: readonly Bar[],
  signs: readonly BarSigns[],
  options: { readonly ticksPerQuarter: number; readonly warnings: WarningList },
): void {
  const slack = options.ticksPerQuarter * ROUNDING_QUARTERS;
  bars.forEach((bar, i) => {
    const excess = bar.lengthTicks - bar.nominalTicks;
    if (excess > slack) options.warnings.add(bar.number, 'A bar holds more than its time signature says; it is read as long as it is');
    if (excess < -slack && !isExplained(bars, signs, i))
      options.warnings.add(bar.number, 'A bar holds less than its time signature says and is no upbeat; it is read as short as it is');
  });
}

/**
 * Short bars that are nothing odd: upbeats (the first bar, bars numbered 0 or marked as not counted, bars at a
 * section's edge) and the two halves of a split bar.
 */
function isExplained(bars: readonly Bar[], signs: readonly BarSigns[], at: number): boolean {
  const bar = bars[at];
  if (bar === undefined || at === 0 || bar.implicit || bar.number === '0' || at === bars.length - 1) return true;
  if (
    isEdge(bar, signs[at]) ||
    isEdge(bars[at - 1], signs[at - 1]) ||
    signs[at]?.repeatStart === true ||
    signs[at + 1]?.repeatStart === true
  )
    return true;
  return [bars[at - 1], bars[at + 1]].some((other) => other !== undefined && other.lengthTicks + bar.lengthTicks === bar.nominalTicks);
}

/** True where a section may end: a repeat end or a bar line that is not a plain one. */
function isEdge(bar: Bar | undefined, signs: BarSigns | undefined): boolean {
  if (signs !== undefined && signs.repeatEnd !== null) return true;
  return (
    bar?.barlines.some((line) => line.location === 'right' && line.style !== null && line.style !== 'regular' && line.style !== 'none') ===
    true
  );
}
