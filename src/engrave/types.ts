/** What the engraver gives back: one SVG a system and where everything stands in it, in CSS px of that SVG. */

/** A note-head's centre. */
export interface EngravedNote {
  readonly id: string;
  readonly x: number;
  readonly y: number;
}

/** One bar in one system. */
export interface EngravedBar {
  /** Place in `Score.bars`. */
  readonly barIndex: number;
  readonly left: number;
  readonly right: number;
  /** Middle of the line drawn at its right end, the boldest one of a repeat sign; left out where none is known. */
  readonly lineX?: number;
}

/** One stave of a system: outermost lines. */
export interface EngravedStave {
  readonly staff: number;
  readonly top: number;
  readonly bottom: number;
}

/** One system with its own SVG and coordinates. */
export interface EngravedSystem {
  readonly index: number;
  readonly widthPx: number;
  readonly heightPx: number;
  /** Complete `<svg>` of the system, without marks; its user units are px, its origin the top left corner. */
  readonly svg: string;
  readonly staves: readonly EngravedStave[];
  readonly bars: readonly EngravedBar[];
  readonly notes: readonly EngravedNote[];
}

/** A whole engraved score at one width. */
export interface Engraving {
  readonly widthPx: number;
  /** Distance of two stave lines, px. */
  readonly staveSpacePx: number;
  /** Shared `<svg>` with the glyph definitions, to stand once in the page; empty where not needed. */
  readonly defs: string;
  readonly systems: readonly EngravedSystem[];
  /** Why this is a plain bar grid and no engraving; null where it is engraved. */
  readonly fallback: string | null;
}
