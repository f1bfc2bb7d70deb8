/** Spectacles over the bars where a hand is likely to trip, with the numbers of the pitfalls beside them. */
import { fixed } from '../numbers.js';
import { look } from '../pencil.js';
import { textWidth } from '../textWidth.js';
import type { EngravedBar } from '../types.js';

/** A pitfall as the page numbers it. */
export interface NumberedPitfall {
  /** From 1. */
  readonly number: number;
  /** Bars where its places begin, by place in `Score.bars`. */
  readonly bars: readonly number[];
  /** What to read out: one clause. */
  readonly title: string;
}

/** Height of the row, px. */
export const SPECTACLES_HEIGHT_PX = 20;

/** Middle of the glasses under the row's upper edge, px: they stay clear of slurs and ornaments below. */
export const GLASSES_PX = 8;

/** Width of the sign, room before its numbers, and their type size, px. */
const SIGN_PX = 35;
const BESIDE_PX = 4;
const NUMBER_PX = 15;

/** How far the numbers stand below the middle of the glasses, px. */
const NUMBER_DROP_PX = 5;

/** Spectacles over the bars of one system. @param middle height of the bridge, px */
export function spectaclesOver(bars: readonly EngravedBar[], pitfalls: readonly NumberedPitfall[], middle: number): string {
  return bars.map((bar) => {
    const own = pitfalls.filter((pitfall) => pitfall.bars.includes(bar.barIndex));
    return own.length === 0 ? '' : overBar(bar, own, middle);
  }).join('');
}

/** Where the sign of a bar stands: in the middle with its numbers, alone where they have no room. */
export function spectaclesPlace({ left, right }: Pick<EngravedBar, 'left' | 'right'>, numbers: string): { readonly x: number; readonly numbersX: number | null } {
  const width = SIGN_PX + BESIDE_PX + textWidth(numbers, { size: NUMBER_PX, italic: true });
  const middle = (left + right) / 2;
  if (width > right - left) return { x: middle, numbersX: null };
  return { x: middle - width / 2 + SIGN_PX / 2, numbersX: middle - width / 2 + SIGN_PX + BESIDE_PX };
}

/** One bar's sign. */
function overBar(bar: EngravedBar, own: readonly NumberedPitfall[], middle: number): string {
  const numbers = own.map(({ number }) => String(number)).join(', ');
  const { x, numbersX } = spectaclesPlace(bar, numbers);
  const labels = {
    title: own.map(({ number, title }) => `${number}. ${title}`).join(' '),
    data: { bar: bar.barIndex, notes: own.map(({ number }) => `pitfall-${number}`).join(' ') },
    seed: 97 * bar.barIndex + 13,
  };
  const text = numbersX === null ? '' : `<text class="look-number" x="${fixed(numbersX)}" y="${fixed(middle + NUMBER_DROP_PX)}" font-size="${NUMBER_PX}" font-style="italic" aria-hidden="true">${numbers}</text>`;
  return look({ x, y: middle }, labels) + text;
}
