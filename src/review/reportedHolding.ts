import { measured, type Measured } from '../base/index.js';
import type { BarHolding, HandHolding } from '../measure/index.js';

/**
 * How notes were held in one visit to a bar, as it goes out: shares to a hundredth.
 * @param place of the visit in `Measures.bars`
 * @throws RangeError where the facts know no such visit
 */
export function reportedHolding(bars: readonly BarHolding[], place: number): BarHolding {
  const bar = bars[place];
  if (bar === undefined) throw new RangeError(`no holdings of visit ${place}`);
  return { right: reportedHand(bar.right), left: reportedHand(bar.left) };
}

/** One hand. */
function reportedHand({ keyShare, soundShare, joined, dots, restHeld }: HandHolding): HandHolding {
  return { keyShare: toHundredths(keyShare), soundShare: toHundredths(soundShare), joined: toHundredths(joined), dots: toHundredths(dots), restHeld: toHundredths(restHeld) };
}

/** Two decimals. */
function toHundredths(share: Measured<number>): Measured<number> {
  return share.measured ? measured(Math.round(share.value * 100) / 100) : share;
}
