/**
 * The engraver's drawing written again for the page: only shapes, only harmless attributes, no styles, no ids of its
 * own; colours are `currentColor`. Whatever a score file holds, nothing but drawing and escaped text comes through.
 */
import { glyphId, type Glyphs } from './glyphs.js';
import { PX_PER_UNIT } from './toolkit.js';
import { readWords, writeLine } from './words.js';
import { elementsOf, escapeXml, kindOf, type XmlElement } from './xmlTree.js';

/** What the writer needs to know beside the drawing. */
export interface CleanContext {
  readonly glyphs: Glyphs;
  /** Id in the score for the engraver's own note id; undefined for other elements. */
  readonly noteId: (engraverId: string) => string | undefined;
  /** Place in `Score.bars` for the engraver's measure. */
  readonly barIndex: (measure: XmlElement) => number | undefined;
}

/** Elements that only draw. */
const SHAPES = new Set(['path', 'polygon', 'polyline', 'rect', 'ellipse', 'circle', 'line']);

/** Attributes that only place and measure; any other is dropped. */
const GEOMETRY = [
  'd', 'points', 'transform', 'x', 'y', 'x1', 'y1', 'x2', 'y2', 'cx', 'cy', 'r', 'rx', 'ry', 'width', 'height', 'visibility',
  'stroke-width', 'stroke-linecap', 'stroke-linejoin', 'stroke-dasharray', 'fill-opacity',
] as const;

/** Kinds of element whose words stand in italics. */
const ITALIC_KINDS: ReadonlySet<string> = new Set(['dir', 'dynam']);

/** Kinds that keep their name as a class, for the page's style sheet. */
const KEPT_KINDS: ReadonlySet<string> = new Set(['tempo', 'dir', 'dynam', 'fing', 'reh', 'harm', 'syl', 'pedal', 'slur']);

/** Kinds that are left out: we number the bars ourselves. */
const LEFT_OUT: ReadonlySet<string> = new Set(['mNum', 'label', 'labelAbbr']);

/** The star that lifts the pedal (SMuFL), and how far it moves left so that it stands clear of the next "Ped.", px. */
const PEDAL_STAR = 'E655';
const STAR_LEFT_PX = 14;

/** Writes an element and all below it. */
export function cleanSvg(element: XmlElement, context: CleanContext, italic = false): string {
  if (isLeftOut(element)) return '';
  if (element.name === 'use') return cleanUse(element, context.glyphs);
  if (element.name === 'text') return readWords(element, italic).map(writeLine).join('');
  if (SHAPES.has(element.name)) return `<${element.name}${geometry(element)}${fill(element)}/>`;
  if (element.name !== 'g') return '';
  const slope = italic || ITALIC_KINDS.has(kindOf(element));
  const inside = elementsOf(element).map((child) => cleanSvg(child, context, slope)).join('');
  const attributes = groupAttributes(element, context);
  if (inside === '') return '';
  return attributes === '' ? inside : `<g${attributes}>${inside}</g>`;
}

/** Whether an element is drawn at all; what is left out must not count as ink either. */
export function isLeftOut(element: XmlElement): boolean {
  return LEFT_OUT.has(kindOf(element));
}

/** A bar and a note keep their link; other groups keep at most their kind and a transform. */
function groupAttributes(element: XmlElement, context: CleanContext): string {
  const kept = geometry(element);
  const kind = kindOf(element);
  const bar = kind === 'measure' ? context.barIndex(element) : undefined;
  if (bar !== undefined) return ` class="bar" data-bar="${bar}"${kept}`;
  const note = context.noteId(element.attributes['id'] ?? '');
  if (note !== undefined) return ` class="note" data-note="${escapeXml(note)}"${kept}`;
  return KEPT_KINDS.has(kind) ? ` class="${kind}"${kept}` : kept;
}

/** A glyph by our own name for it; one that is not defined draws nothing. */
function cleanUse(element: XmlElement, glyphs: Glyphs): string {
  const glyph = glyphs.get((element.attributes['href'] ?? '').slice(1));
  if (!glyph) return '';
  const use = `<use href="#${escapeXml(glyphId(glyph))}"${geometry(element)}/>`;
  return glyph.name === PEDAL_STAR ? `<g transform="translate(${-STAR_LEFT_PX / PX_PER_UNIT} 0)">${use}</g>` : use;
}

/** The harmless attributes, escaped. */
function geometry({ attributes }: XmlElement): string {
  return GEOMETRY.flatMap((name) => {
    const value = attributes[name];
    return value === undefined ? [] : [` ${name}="${escapeXml(value)}"`];
  }).join('');
}

/** Outlines stay hollow; all else takes the page’s colour. */
function fill({ attributes }: XmlElement): string {
  return attributes['fill'] === 'none' ? ' fill="none"' : '';
}
