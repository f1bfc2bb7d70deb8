/** The bar lines of a system, carried on through a lane under it. */
import { fixed } from './numbers.js';
import type { EngravedSystem } from './types.js';

/** Half the width of a plain bar line, px: where none is drawn, the lane's line ends with the stave. */
const HALF_LINE_PX = 0.5;

/** One line for each bar, through the middle of the line that is drawn there. */
export function laneBars(system: EngravedSystem, { top, bottom }: { readonly top: number; readonly bottom: number }): string {
  const lines = system.bars.map(({ barIndex, right, lineX = right - HALF_LINE_PX }) => `<path data-bar="${barIndex}" d="M${fixed(lineX)} ${fixed(top)}V${fixed(bottom)}"/>`);
  return `<g class="lane-bar" stroke-opacity="0.3">${lines.join('')}</g>`;
}
