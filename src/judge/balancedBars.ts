/** Bars in which a tune stands over an accompaniment, as the judges of balance look at them. */
import { median } from 'simple-statistics';
import { notMeasured, type Measured } from '../base/index.js';
import type { BarFacts, Hand } from '../measure/index.js';
import type { LevelGround } from './levelGround.js';

/** How many bars are smoothed over: one phrase end or one chord is no fault of balance. */
const SMOOTHED_BARS = 3;

/** A bar with its balance. */
export interface BalancedBar {
  readonly visit: BarFacts;
  /** The hand that has the tune. */
  readonly hand: Hand;
  /** Velocity units of the tune over its accompaniment. */
  readonly over: number;
  /** The same, smoothed with the bars beside it. */
  readonly smooth: number;
}

/** Bars with a tune and an accompaniment, in order of time. */
export function balancedBars(ground: LevelGround): readonly BalancedBar[] {
  const { input: { measures }, facts } = ground;
  const bars = measures.bars.flatMap((bar, i): readonly (Omit<BalancedBar, 'smooth'>)[] => {
    const visit = ground.visit(bar.stretch, bar.visitIndex);
    const over: Measured<number> = facts.bars[i]?.tuneOver ?? notMeasured('nothing is struck here');
    return visit === undefined || !over.measured ? [] : [{ visit, over: over.value, hand: tuneHand(ground, bar) }];
  });
  return bars.map((bar, i) => {
    const beside = bars.slice(Math.max(0, i - (SMOOTHED_BARS - 1) / 2), i + (SMOOTHED_BARS + 1) / 2).filter(({ visit }) => visit.stretch === bar.visit.stretch);
    return { ...bar, smooth: median(beside.map(({ over }) => over)) };
  });
}

/** The hand that has the tune in a bar. */
function tuneHand({ input: { score }, facts }: LevelGround, { visitIndex }: BarFacts): Hand {
  const tick = score.order[visitIndex]?.startTick ?? 0;
  return facts.balance.tune.find(({ fromTick, toTick }) => tick >= fromTick && tick < toTick)?.hand ?? 'right';
}
