/**
 * Layers of the page around one system's engraving. The engraver's drawing stays as it is; what a hand can touch
 * lies under it in drawings of the same size.
 */
import { sentenceCase } from '../base/index.js';
import type { EngravedBar, EngravedSystem } from '../engrave/index.js';
import type { BarNames } from '../score/index.js';
import { drawing, element } from './svg.js';

/**
 * What lies under and over the engraving of one system: washes for open bars, and a link for each
 * bar.
 */
export interface SheetLayers {
  readonly under: string;
  readonly over: string;
}

/** How the bars are named and where their links lead. */
export interface SheetLinks {
  readonly names: BarNames;
  readonly anchors: readonly string[];
  /** Height of the whole sheet, marks and lanes included, px. */
  readonly heightPx: number;
  /** How far the engraving stands lower than in its own coordinates, px. */
  readonly loweredPx: number;
}

/** Bars are touched from a little over the stave down to the end of the lane. */
const ABOVE_STAVE_PX = 44;

/** Draws both layers, as large as the system's own SVG. */
export function sheetLayers(system: EngravedSystem, links: SheetLinks): SheetLayers {
  const size = { widthPx: system.widthPx, heightPx: links.heightPx };
  const washes = system.bars.map((bar) => rectOf(system, bar, links)).join('');
  const targets = system.bars.map((bar) => targetOf(system, bar, links)).join('');
  return {
    under: drawing(size, { class: 'under', 'aria-hidden': 'true' }, washes),
    over: drawing(size, { class: 'over', role: 'group', 'aria-label': sentenceCase(rangeOf(system, links)) }, targets),
  };
}

/** "bars 5–8": all bars of a system. */
function rangeOf({ bars }: EngravedSystem, { names }: SheetLinks): string {
  return names.range(bars[0]?.barIndex ?? 0, bars.at(-1)?.barIndex ?? 0);
}

/** A bar's link; the first bar of a system reaches over clef and key. */
function targetOf(system: EngravedSystem, bar: EngravedBar, links: SheetLinks): string {
  const { barIndex } = bar;
  const attributes = { class: 'bar-target', href: `#${links.anchors[barIndex] ?? ''}`, 'data-bar': String(barIndex), 'aria-label': links.names.long(barIndex) };
  return element('a', attributes, rectOf(system, bar, links));
}

/** A bar's place on the sheet. */
function rectOf(system: EngravedSystem, bar: EngravedBar, links: SheetLinks): string {
  const top = Math.max(0, links.loweredPx + Math.min(...system.staves.map((stave) => stave.top)) - ABOVE_STAVE_PX);
  const { left, right, barIndex } = bar;
  return element('rect', { 'data-bar': String(barIndex), x: left, y: top, width: right - left, height: links.heightPx - top });
}
