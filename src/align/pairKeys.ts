/**
 * The question: which press of a key is which written note of that key, given when each was expected?
 * Conventions: both lists in time order; cost of a pair = distance over the tolerance of the written note; a note or a
 * press left alone costs 1, so a pair is worth it below 2.
 * Method: dynamic programming over the two lists (edit distance), apart for clusters that lie too far from one another.
 */

/** A written note with its expected time and tolerance. */
export interface Wanted {
  readonly id: number;
  readonly expectedS: number;
  readonly toleranceS: number;
}

/** A press that is free to be paired. */
export interface Offered {
  readonly id: number;
  readonly onsetS: number;
}

/** Cost of leaving a written note or a press alone. */
const ALONE = 1;
/** Written notes and presses more than this many in one cluster are matched within a band about the diagonal. */
const BAND = 96;

function pairCluster<W extends Wanted, O extends Offered>(wanted: readonly W[], offered: readonly O[], chosen: (wanted: W, offered: O) => void): void {
  const rows = wanted.length + 1;
  const columns = offered.length + 1;
  const cost = new Float64Array(rows * columns).fill(Infinity);
  const move = new Uint8Array(rows * columns);
  for (let i = 0; i < rows; i += 1) {
    const middle = Math.round((i * (columns - 1)) / Math.max(1, rows - 1));
    for (let j = Math.max(0, middle - BAND); j <= Math.min(columns - 1, middle + BAND); j += 1) {
      const at = i * columns + j;
      if (i === 0 && j === 0) { cost[at] = 0; continue; }
      const w = wanted[i - 1];
      const o = offered[j - 1];
      const up = w ? (cost[at - columns] ?? Infinity) + ALONE : Infinity;
      const left = o ? (cost[at - 1] ?? Infinity) + ALONE : Infinity;
      const pair = w && o ? (cost[at - columns - 1] ?? Infinity) + Math.abs(o.onsetS - w.expectedS) / w.toleranceS : Infinity;
      cost[at] = Math.min(up, left, pair);
      move[at] = pair <= Math.min(up, left) ? 3 : up <= left ? 1 : 2;
    }
  }
  for (let i = rows - 1, j = columns - 1; i > 0 || j > 0;) {
    const how = move[i * columns + j] ?? 0;
    const w = wanted[i - 1];
    const o = offered[j - 1];
    if (how === 3 && w && o) chosen(w, o);
    if (how === 0) break;
    if (how !== 2) i -= 1;
    if (how !== 1) j -= 1;
  }
}

/** Pairs the two lists at least cost and reports every pair. */
export function pairKeys<W extends Wanted, O extends Offered>(wanted: readonly W[], offered: readonly O[], chosen: (wanted: W, offered: O) => void): void {
  let i = 0;
  let j = 0;
  while (i < wanted.length && j < offered.length) {
    const [fromI, fromJ] = [i, j];
    let reach = -Infinity;
    for (;;) {
      const w = wanted[i];
      const o = offered[j];
      const next = Math.min(w ? w.expectedS - 2 * w.toleranceS : Infinity, o ? o.onsetS : Infinity);
      if (next === Infinity || (reach > -Infinity && next > reach)) break;
      if (w && w.expectedS - 2 * w.toleranceS <= (o?.onsetS ?? Infinity)) { reach = Math.max(reach, w.expectedS + 2 * w.toleranceS); i += 1; } else if (o) { reach = Math.max(reach, o.onsetS); j += 1; }
    }
    if (i > fromI && j > fromJ) pairCluster(wanted.slice(fromI, i), offered.slice(fromJ, j), chosen);
  }
}
