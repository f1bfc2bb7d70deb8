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

/** The table of a cluster: only the band is kept, so that a key struck ten thousand times costs no more than its band. */
class Table {
  readonly rows: number;
  readonly columns: number;
  private readonly width: number;
  private readonly cost: Float64Array;
  private readonly move: Uint8Array;

  constructor(rows: number, columns: number) {
    this.rows = rows;
    this.columns = columns;
    this.width = Math.min(columns, 2 * BAND + 1);
    this.cost = new Float64Array(rows * this.width).fill(Infinity);
    this.move = new Uint8Array(rows * this.width);
  }

  /** First and last column of a row's band. */
  bandOf(row: number): readonly [number, number] {
    const middle = Math.round((row * (this.columns - 1)) / Math.max(1, this.rows - 1));
    return [Math.max(0, middle - BAND), Math.min(this.columns - 1, middle + BAND)];
  }

  private at(row: number, column: number): number {
    const [first, last] = this.bandOf(row);
    return column < first || column > last ? -1 : row * this.width + column - first;
  }

  costAt(row: number, column: number): number {
    return this.cost[this.at(row, column)] ?? Infinity;
  }

  moveAt(row: number, column: number): number {
    return this.move[this.at(row, column)] ?? 0;
  }

  set(row: number, column: number, cost: number, move: number): void {
    const at = this.at(row, column);
    this.cost[at] = cost;
    this.move[at] = move;
  }
}

// Moves: 1 leaves a written note alone, 2 a press, 3 pairs both; 0 where the path ends or nothing leads here.
function fill(table: Table, wanted: readonly Wanted[], offered: readonly Offered[]): void {
  table.set(0, 0, 0, 0);
  for (let i = 0; i < table.rows; i += 1) {
    const [first, last] = table.bandOf(i);
    for (let j = first; j <= last; j += 1) {
      if (i === 0 && j === 0) continue;
      const w = wanted[i - 1];
      const o = offered[j - 1];
      const up = w ? table.costAt(i - 1, j) + ALONE : Infinity;
      const left = o ? table.costAt(i, j - 1) + ALONE : Infinity;
      const pair = w && o ? table.costAt(i - 1, j - 1) + Math.abs(o.onsetS - w.expectedS) / w.toleranceS : Infinity;
      const least = Math.min(up, left, pair);
      if (least < Infinity) table.set(i, j, least, pair === least ? 3 : up === least ? 1 : 2);
    }
  }
}

function pairCluster<W extends Wanted, O extends Offered>(wanted: readonly W[], offered: readonly O[], chosen: (wanted: W, offered: O) => void): void {
  const table = new Table(wanted.length + 1, offered.length + 1);
  fill(table, wanted, offered);
  for (let i = wanted.length, j = offered.length; i > 0 || j > 0;) {
    const how = table.moveAt(i, j);
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
