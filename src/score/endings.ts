/** First, second and further endings as stretches of bars. Which of them is played when, `order.ts` decides. */
import type { BarSigns } from './navigation.js';

/** A stretch of bars under one ending bracket. */
export interface EndingBlock {
  readonly first: number;
  /** Last bar, inclusive. */
  readonly last: number;
  readonly numbers: readonly number[];
  /** Highest number in the row of brackets that this one belongs to. */
  readonly highest: number;
}

/**
 * The ending brackets of a piece. A bracket runs to its stop, or, where the file never closes it, to the next
 * repeat end, the bar before the next bracket or repeat start, or the end of the piece. A bracket without a readable
 * number counts one on from the bracket right before it.
 */
export function endingBlocks(signs: readonly BarSigns[]): readonly EndingBlock[] {
  const blocks: EndingBlock[] = [];
  for (let bar = 0; bar < signs.length; bar += 1) {
    const numbers = signs[bar]?.endingStart ?? null;
    if (numbers === null) continue;
    const before = blocks.at(-1);
    const previous = before?.last === bar - 1 ? Math.max(...before.numbers) : 0;
    const last = endOfBlock(signs, bar);
    blocks.push({ first: bar, last, numbers: numbers.length > 0 ? numbers : [previous + 1], highest: 0 });
    bar = last;
  }
  return blocks.map((block, i) => ({ ...block, highest: highestInRow(blocks, i) }));
}

/** Last bar of the bracket that begins at a bar. */
function endOfBlock(signs: readonly BarSigns[], first: number): number {
  let last = first;
  while (last < signs.length - 1) {
    if (closes(signs[last]) || opens(signs[last + 1])) break;
    last += 1;
  }
  return last;
}

/** True where a bracket cannot go on after this bar. */
function closes(bar: BarSigns | undefined): boolean {
  return bar !== undefined && (bar.endingStop || bar.repeatEnd !== null);
}

/** True where a bracket cannot go on into this bar. */
function opens(bar: BarSigns | undefined): boolean {
  return bar !== undefined && (bar.endingStart !== null || bar.repeatStart);
}

/** Walks both ways along brackets that follow one another without a gap, until the numbers begin anew. */
function highestInRow(blocks: readonly EndingBlock[], at: number): number {
  let from = at;
  while (isContinued(blocks[from - 1], blocks[from])) from -= 1;
  let to = at;
  while (isContinued(blocks[to], blocks[to + 1])) to += 1;
  return Math.max(...blocks.slice(from, to + 1).flatMap((block) => block.numbers));
}

/** True where the right bracket belongs to the same row: it follows at once and counts on. */
function isContinued(left: EndingBlock | undefined, right: EndingBlock | undefined): boolean {
  return (
    left !== undefined && right !== undefined && left.last + 1 === right.first && Math.min(...right.numbers) > Math.min(...left.numbers)
  );
}
