import type { EngravedBar, EngravedSystem } from '../engrave/index.js';
import type { BarNames } from '../review/index.js';
import { escaped, px } from './svg.js';

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
  const size = `width="${px(system.widthPx)}" height="${px(links.heightPx)}" viewBox="0 0 ${px(system.widthPx)} ${px(links.heightPx)}"`;
  const washes = system.bars.map((bar) => rectOf(system, bar, links)).join('');
  const targets = system.bars.map((bar) => targetOf(system, bar, links)).join('');
  return {
    under: `<svg class="under" ${size} aria-hidden="true">${washes}</svg>`,
    over: `<svg class="over" ${size} role="group" aria-label="Bars of this system">${targets}</svg>`,
  };
}

/** A bar's link; the first bar of a system reaches over clef and key. */
function targetOf(system: EngravedSystem, bar: EngravedBar, links: SheetLinks): string {
  const href = escaped(`#${links.anchors[bar.barIndex] ?? ''}`);
  return `<a class="bar-target" href="${href}" data-bar="${bar.barIndex}" aria-label="${escaped(links.names.long(bar.barIndex))}">${rectOf(system, bar, links)}</a>`;
}

/** A bar's place on the sheet. */
function rectOf(system: EngravedSystem, bar: EngravedBar, links: SheetLinks): string {
  const top = Math.max(0, links.loweredPx + Math.min(...system.staves.map((stave) => stave.top)) - ABOVE_STAVE_PX);
  return `<rect data-bar="${bar.barIndex}" x="${px(bar.left)}" y="${px(top)}" width="${px(bar.right - bar.left)}" height="${px(links.heightPx - top)}"/>`;
}
