/** Did the foot do something else at a change of harmony? */
import type { PedalChange } from '../measure/index.js';
import { BEYOND_SCATTER_SD, scatterOf, type Values } from './scatter.js';
import { isVisitIn, type Spot } from './sides.js';
import { footMoves } from './values.js';

/** A lift or press that comes less (<) earlier or later is the same, seconds: the foot repeats itself to some 50 ms. Common practice, no source. */
const FOOT_S = 0.06;

/** Moments of the foot. */
const MOMENTS = ['liftS', 'pressS'] as const;

/** True where at a change in the fault's bars the foot moved otherwise, or earlier or later than its scatter. */
export function footMoved({ clear, other, place }: Spot): boolean {
  const [one, two] = [footMoves(clear), footMoves(other)];
  const limits = MOMENTS.map((moment) => Math.max(FOOT_S, BEYOND_SCATTER_SD * scatterOf(times(one, moment), times(two, moment))));
  return [...one.values()].filter(({ visitIndex }) => isVisitIn(clear, visitIndex, place)).some((change) => {
    const against = two.get(change.tick);
    return against !== undefined && (change.foot !== against.foot || MOMENTS.some((moment, i) => Math.abs((change[moment] ?? 0) - (against[moment] ?? 0)) >= (limits[i] ?? FOOT_S)));
  });
}

/** When the foot lifted or pressed, seconds after the new sound, by the change's tick. */
function times(changes: ReadonlyMap<number, PedalChange>, moment: (typeof MOMENTS)[number]): Values {
  return new Map([...changes].flatMap(([tick, change]) => {
    const at = change[moment];
    return at === null ? [] : [[tick, at] as const];
  }));
}
