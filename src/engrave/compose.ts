import type { EngravedSystem } from './types.js';
import { fixed } from './numbers.js';
import { openSvg } from './openSvg.js';

/** A pencil mark in a system's coordinates. */
export interface Mark {
  /** A `<g class="mark …">`. */
  readonly svg: string;
  /** Highest and lowest point of its strokes, px. */
  readonly top: number;
  readonly bottom: number;
}

/** A lane that hangs under a system: same x, its own y from 0. */
export interface Lane {
  /** A `<g class="lane …">`. */
  readonly svg: string;
  readonly heightPx: number;
}

/** A system with everything on it. */
export interface ComposedSystem {
  /** Complete `<svg>`. */
  readonly svg: string;
  readonly heightPx: number;
  /** How far the engraving was moved down to make room for marks above it, px. */
  readonly loweredPx: number;
}

/** Room between a mark and the edge of the system, px. */
const EDGE_PX = 4;

/** The system with marks over it and lanes beneath, as much higher as they need. */
export function composeSystem(system: EngravedSystem, marks: readonly Mark[], lanes: readonly Lane[]): ComposedSystem {
  const loweredPx = Math.ceil(Math.max(0, ...marks.map(({ top }) => EDGE_PX - top)));
  const inkBottom = Math.ceil(Math.max(system.heightPx, ...marks.map(({ bottom }) => bottom + EDGE_PX)));
  const tops = lanes.reduce<readonly number[]>((sums, lane) => [...sums, (sums.at(-1) ?? inkBottom) + lane.heightPx], [inkBottom]);
  const bottom = tops.at(-1) ?? inkBottom;
  const heightPx = bottom + loweredPx;
  const drawn = `<g class="lanes">${lanes.map((lane, i) => `<g transform="translate(0 ${fixed(tops[i] ?? bottom)})">${lane.svg}</g>`).join('')}</g>`;
  const over = `<g class="marks">${marks.map(({ svg }) => svg).join('')}</g>`;
  const inside = drawn + withoutFrame(system.svg) + over;
  return { svg: `${openSvg(system.widthPx, heightPx)}<g transform="translate(0 ${loweredPx})">${inside}</g></svg>`, heightPx, loweredPx };
}

/** What stands inside a system's own `<svg>`. */
function withoutFrame(svg: string): string {
  return svg.slice(svg.indexOf('>') + 1, svg.lastIndexOf('</svg>'));
}
