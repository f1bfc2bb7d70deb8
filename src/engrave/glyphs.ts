import { movedBox, parseTransform } from './transform.js';
import { unionOf, type Box } from './box.js';
import { pathBox } from './path.js';
import { elementsOf, escapeXml, type XmlElement } from './xmlTree.js';

/** One outline of the music font as the engraver defines it for `<use>`. */
export interface Glyph {
  /** Name in the SMuFL numbering, e.g. "E0A4" for a black note-head. */
  readonly name: string;
  /** Path data, in font units, y upwards. */
  readonly d: string;
  /** Transform of the path itself (the font's y axis is turned over). */
  readonly transform: string;
  /** Box in the units of `<use>`. */
  readonly box: Box | null;
}

/** Outlines by the id that `<use>` names. */
export type Glyphs = ReadonlyMap<string, Glyph>;

/** Collects the outlines of an engraver's `<defs>`. */
export function readGlyphs(defs: XmlElement | undefined): Glyphs {
  const entries = (defs ? elementsOf(defs) : []).map((definition) => [definition.attributes['id'] ?? '', glyphOf(definition)] as const);
  return new Map(entries);
}

/** The id of an outline in our own pages: the same for every engraving, so that it is defined once a page. */
export function glyphId(glyph: Glyph): string {
  return `glyph-${glyph.name}`;
}

/** A hidden `<svg>` that defines the outlines once for all systems of a page; `class` is `glyphs`. */
export function glyphDefs(glyphs: Iterable<Glyph>): string {
  const byId = new Map([...glyphs].map((glyph) => [glyphId(glyph), glyph]));
  const paths = [...byId].map(([id, { transform, d }]) => `<path id="${escapeXml(id)}" transform="${escapeXml(transform)}" d="${escapeXml(d)}"/>`);
  return hidden(paths.join(''));
}

/** The definitions of several engravings on one page as one, each outline once. @param defs what `glyphDefs` gave */
export function joinedDefs(defs: readonly string[]): string {
  const paths = new Map(defs.flatMap((one) => [...one.matchAll(/<path id="([^"]*)"[^>]*\/>/g)].map(([path, id = '']) => [id, path] as const)));
  return hidden([...paths.values()].join(''));
}

/** An `<svg>` that only defines. */
function hidden(paths: string): string {
  return `<svg xmlns="http://www.w3.org/2000/svg" class="glyphs" width="0" height="0" aria-hidden="true"><defs>${paths}</defs></svg>`;
}

/** Name, outline and box of one definition. */
function glyphOf(definition: XmlElement): Glyph {
  const paths = elementsOf(definition).filter(({ name }) => name === 'path');
  const d = paths.map(({ attributes }) => attributes['d'] ?? '').join('');
  const transform = paths[0]?.attributes['transform'] ?? '';
  const boxes = [pathBox(d)].flatMap((box) => (box ? [movedBox(parseTransform(transform), box)] : []));
  return { name: /^[0-9A-F]+/i.exec(definition.attributes['id'] ?? '')?.[0] ?? 'none', d, transform, box: unionOf(boxes) };
}
