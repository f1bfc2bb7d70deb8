/** Reads the engraver's own SVG (one or more pages of one column) into systems still in its units. */
import { barLineXs, type BarLineX } from './barLines.js';
import { readGlyphs, type Glyphs } from './glyphs.js';
import { inkOf, headCentre } from './ink.js';
import { isLeftOut } from './clean.js';
import { composed, IDENTITY, moved, numbersOf, parseTransform, type Transform } from './transform.js';
import type { Box, Point } from './box.js';
import { childNamed, elementsOf, kindOf, ofKind, parseXml, type XmlElement } from './xmlTree.js';

/** A system as the engraver drew it; all measures in px from the left of the page and any common height. */
export interface RawSystem {
  readonly element: XmlElement;
  /** From the system's own units to px. */
  readonly toPx: Transform;
  readonly measures: readonly RawMeasure[];
  /** Where bar lines, double bars and repeat signs stand. */
  readonly barLines: readonly BarLineX[];
  readonly ink: readonly Box[];
  /** Note-head centres by the engraver's id. */
  readonly heads: ReadonlyMap<string, Point>;
}

/** One measure: its element and the outer lines of its staves. */
export interface RawMeasure {
  readonly element: XmlElement;
  readonly staves: readonly RawStave[];
}

/** Outer lines of one stave in one measure. */
export interface RawStave {
  readonly staff: number;
  readonly box: Box;
}

/** A whole column. */
export interface RawColumn {
  readonly glyphs: Glyphs;
  readonly systems: readonly RawSystem[];
}

/**
 * @param pages SVG text of the pages in order
 * @param pxPerUnit size of an inner unit
 */
export function readColumn(pages: readonly string[], pxPerUnit: number): RawColumn {
  const roots = pages.map(parseXml);
  const glyphs: Glyphs = new Map(roots.flatMap((root) => [...readGlyphs(childNamed(root, 'defs'))]));
  const systems = roots.flatMap((root) => pageSystems(root, { glyphs, pxPerUnit }));
  return { glyphs, systems };
}

/** The systems of one page, each with the map from its units to px. */
function pageSystems(root: XmlElement, { glyphs, pxPerUnit }: { readonly glyphs: Glyphs; readonly pxPerUnit: number }): readonly RawSystem[] {
  const scale: Transform = { ...IDENTITY, a: pxPerUnit, d: pxPerUnit };
  return ofKind(root, 'page-margin').flatMap((page) => {
    const toPx = composed(scale, parseTransform(page.attributes['transform']));
    return elementsOf(page).filter((child) => kindOf(child) === 'system').map((element) => readSystem(element, toPx, glyphs));
  });
}

/** Measures, ink and heads of one system. */
function readSystem(element: XmlElement, toPx: Transform, glyphs: Glyphs): RawSystem {
  const measures = ofKind(element, 'measure').map((measure) => ({ element: measure, staves: readStaves(measure, toPx) }));
  const drawn: XmlElement = { ...element, children: elementsOf(element).map(withoutLeftOut) };
  const heads = new Map(ofKind(element, 'note').flatMap((note) => {
    const centre = noteCentre(note, toPx, glyphs);
    return centre ? [[note.attributes['id'] ?? '', centre] as const] : [];
  }));
  return { element, toPx, measures, barLines: barLineXs(element, toPx), ink: inkOf(drawn, toPx, glyphs), heads };
}

/** What will not be drawn must not count as ink. */
function withoutLeftOut(element: XmlElement): XmlElement {
  return { ...element, children: isLeftOut(element) ? [] : element.children.map((child) => (typeof child === 'string' ? child : withoutLeftOut(child))) };
}

/** Centre of a note’s head; null for one without a head (a slash, an empty stem). */
function noteCentre(note: XmlElement, toPx: Transform, glyphs: Glyphs): Point | null {
  const use = ofKind(note, 'notehead').flatMap(elementsOf).find(({ name }) => name === 'use');
  return use ? headCentre(use, toPx, glyphs) : null;
}

/** The stave lines are the level paths directly inside a stave: their ends are the bar's edges. */
function readStaves(measure: XmlElement, toPx: Transform): readonly RawStave[] {
  return elementsOf(measure).filter((child) => kindOf(child) === 'staff').flatMap((staff) => {
    const ends = elementsOf(staff).filter(({ name }) => name === 'path').flatMap((path) => levelEnds(path, toPx));
    if (ends.length === 0) return [];
    const xs = ends.map(({ x }) => x);
    const ys = ends.map(({ y }) => y);
    const box = { left: Math.min(...xs), right: Math.max(...xs), top: Math.min(...ys), bottom: Math.max(...ys) };
    return [{ staff: Number(staff.attributes['data-n'] ?? 0), box }];
  });
}

/** Both ends of a level line; nothing for any other path. */
function levelEnds(path: XmlElement, toPx: Transform): readonly Point[] {
  const [x1, y1, x2, y2, ...more] = numbersOf(path.attributes['d'] ?? '');
  if (x1 === undefined || y1 === undefined || x2 === undefined || y2 !== y1 || more.length > 0) return [];
  return [moved(toPx, { x: x1, y: y1 }), moved(toPx, { x: x2, y: y2 })];
}
