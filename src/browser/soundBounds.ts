import type { ShownBar } from '../sound/index.js';

/** What is to be heard: places in the list of bars as they were gone through, the second one inclusive; null for the beginning and the end. */
export interface Bounds {
  readonly from: number | null;
  readonly to: number | null;
}

/** Keys of a bar's first beat may come a little before the rest of it, seconds. */
const BEFORE_S = 0.02;

/** The moments of some bars as played. */
export function momentsOf(bars: readonly ShownBar[], { from, to }: Bounds): { readonly fromS: number; readonly untilS: number | null } {
  const start = bars[from ?? -1];
  const next = to === null ? undefined : bars[to + 1];
  return { fromS: start === undefined ? 0 : Math.max(0, start.startS - BEFORE_S), untilS: next === undefined ? null : next.startS - BEFORE_S };
}

/** The last time that some bars were gone through: "4", "4-7", places in the score; of several stretches ("4-7 12") the first. Null where they were not played. */
export function lastVisit(bars: readonly ShownBar[], text: string): Bounds | null {
  const [first = '', last = first] = (text.split(' ')[0] ?? '').split('-');
  const from = bars.findLastIndex(({ barIndex }) => barIndex === Number(first));
  if (first === '' || from === -1) return null;
  const reached = bars.findIndex(({ barIndex, stretch }, i) => i >= from && stretch === bars[from]?.stretch && barIndex === Number(last));
  return { from, to: reached === -1 ? from : reached };
}
