/** Bar numbers at every bar line, one height a system, clear of all ink under them. */
import type { Bar } from '../score/index.js';
import type { Box } from './box.js';
import { fixed } from './numbers.js';
import { TEXT_DROP, TEXT_RISE, textWidth } from './textWidth.js';
import { escapeXml } from './xmlTree.js';

/** Type size of the smallest text of the pages, px. */
export const NUMBER_SIZE_PX = 15;

/** Height of the base line above the stave where nothing is in the way, px. */
const ABOVE_STAVE_PX = 20;

/** Room kept between a number and the ink under it (slurs, high notes, words), px. */
const CLEAR_PX = 7;

/** Distance of a number from its bar line, px. */
const INDENT_PX = 2;

/** One number and where it goes. */
interface Placed {
  readonly text: string;
  readonly x: number;
  readonly barIndex: number;
}

/** What the numbers of one system look like and take up. */
export interface BarNumbers {
  readonly svg: string;
  readonly ink: readonly Box[];
}

/** The bars of a system with the place of their left edge. */
export interface NumberedBar {
  readonly bar: Bar | undefined;
  readonly left: number;
}

/**
 * Numbers of one system. None stand at the upbeat, at the first full bar and at uncounted halves of a bar.
 * @param top upper line of the highest stave, px
 * @param ink boxes of all that is drawn, px
 */
export function barNumbers(bars: readonly NumberedBar[], top: number, ink: readonly Box[]): BarNumbers {
  const placed = bars.flatMap(({ bar, left }) => (bar && isNumbered(bar) ? [{ text: bar.number, x: left + INDENT_PX, barIndex: bar.index }] : []));
  const baseline = Math.min(top - ABOVE_STAVE_PX, ...placed.map((number) => highest(number, ink) - CLEAR_PX));
  return { svg: placed.map((number) => write(number, baseline)).join(''), ink: placed.map((number) => boxAt(number, baseline)) };
}

/** Whether print gives this bar a number. */
function isNumbered(bar: Bar): boolean {
  return !bar.implicit && bar.number !== '' && bar.number !== '0' && !(bar.number === '1' && bar.index <= 1);
}

/** Top of the ink within the width of a number, its own clearance at both sides. */
function highest({ text, x }: Placed, ink: readonly Box[]): number {
  const right = x + textWidth(text, { size: NUMBER_SIZE_PX, italic: true });
  return Math.min(...ink.filter((box) => box.right > x - INDENT_PX && box.left < right + INDENT_PX).map((box) => box.top), Infinity);
}

/** One number as text, linked to its bar. */
function write({ text, x, barIndex }: Placed, baseline: number): string {
  return `<text class="bar-number" data-bar="${barIndex}" x="${fixed(x)}" y="${fixed(baseline)}" font-size="${NUMBER_SIZE_PX}" font-style="italic" fill="currentColor">${escapeXml(text)}</text>`;
}

/** Room a number takes up, so that the system is tall enough. */
function boxAt({ text, x }: Placed, baseline: number): Box {
  const style = { size: NUMBER_SIZE_PX, italic: true };
  return { left: x, right: x + textWidth(text, style), top: baseline - TEXT_RISE * NUMBER_SIZE_PX, bottom: baseline + TEXT_DROP * NUMBER_SIZE_PX };
}
