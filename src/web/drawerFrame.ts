/** What every bar drawer has around its content, on the review and on the piece's page. */
import type { EngravedBar, EngravedSystem } from '../engrave/index.js';
import type { BarNames } from '../score/index.js';
import { drawing, path, px } from './svg.js';

/** A link to a neighbouring bar. */
export interface BarLink {
  readonly href: string;
  readonly name: string;
}

/** Height of the lines that tie a drawer to its bar, px. */
const HANGER_PX = 12;

/** The bar before or after, where there is one. */
export function linkToBar(barIndex: number, { anchors, names }: { readonly anchors: readonly string[]; readonly names: BarNames }): BarLink | null {
  const anchor = anchors[barIndex];
  return anchor === undefined ? null : { href: `#${anchor}`, name: names.long(barIndex).replace(/^the /, '') };
}

/**
 * The drawer hangs from its bar: a line across the system, open between two uprights under the
 * bar.
 */
export function hangerSvg(system: EngravedSystem, bar: EngravedBar): string {
  const right = Math.min(bar.right, system.widthPx - 0.5);
  const line = `M0 11.5H${px(bar.left)}V0M${px(right)} 0V11.5H${px(system.widthPx)}`;
  return drawing({ widthPx: system.widthPx, heightPx: HANGER_PX }, { class: 'hanger', 'aria-hidden': 'true' }, path('hanger-line', line));
}
