/** The playing order of a demo piece, its repeat written out. */
import { filled, parseHand } from './notation.js';
import type { Piece, WrittenBar } from './piece.js';

/** One bar in the playing order. */
export interface Visit {
  /** Place in the playing order, from 0. */
  readonly index: number;
  readonly barIndex: number;
  readonly bar: WrittenBar;
  /** Which time through this written bar, from 1. */
  readonly pass: number;
  /** Divisions from the start of the piece, repeat counted. */
  readonly start: number;
}

/** The bars in the order in which they are played. Handles what the demo pieces use: one repeat, with or without two endings. */
export function unfold(piece: Piece): readonly Visit[] {
  const visits: Visit[] = [];
  let start = 0;
  for (const { barIndex, pass } of barOrder(piece.bars)) {
    const bar = piece.bars[barIndex];
    if (!bar) continue;
    visits.push({ index: visits.length, barIndex, bar, pass, start });
    start += filled(parseHand(bar.right));
  }
  return visits;
}

/**
 * The visit of a printed bar.
 * @throws RangeError where the piece has none
 */
export function findVisit(visits: readonly Visit[], bar: string, pass: number): Visit {
  const visit = visits.find((each) => each.bar.number === bar && each.pass === pass);
  if (!visit) throw new RangeError(`no bar ${bar} with pass ${pass}`);
  return visit;
}

/** Bars with their pass: all up to the repeat sign, the repeated ones again without the first ending, the rest. */
function barOrder(bars: readonly WrittenBar[]): readonly { barIndex: number; pass: number }[] {
  const once = bars.map((_, barIndex) => ({ barIndex, pass: 1 }));
  const end = bars.findIndex((bar) => bar.repeat === 'backward');
  if (end < 0) return once;
  const begin = Math.max(0, bars.findIndex((bar) => bar.repeat === 'forward'));
  const again = once.slice(begin, end + 1).filter(({ barIndex }) => bars[barIndex]?.ending !== 1);
  return [...once.slice(0, end + 1), ...again.map(({ barIndex }) => ({ barIndex, pass: 2 })), ...once.slice(end + 1)];
}
