/** Where a drawing has ink: small boxes over everything that is drawn, so that systems can be cut apart and cleared. */
import { boxOf, grown, type Box } from './box.js';
import type { Glyphs } from './glyphs.js';
import { boxesAlong, parsePath } from './path.js';
import { composed, moved, movedBox, numbersOf, parseTransform, type Transform } from './transform.js';
import { lineBox, readWords } from './words.js';
import { elementsOf, type XmlElement } from './xmlTree.js';

/** Parts into which a curve is cut for its boxes: a slur's arch is then followed to about a tenth of its height. */
const CURVE_STEPS = 10;

/** Boxes of all ink below an element, in the plane that `at` maps to. Hidden things have none. */
export function inkOf(element: XmlElement, at: Transform, glyphs: Glyphs): readonly Box[] {
  if (element.attributes['visibility'] === 'hidden') return [];
  const here = composed(at, parseTransform(element.attributes['transform']));
  if (element.name === 'use') return [glyphs.get((element.attributes['href'] ?? '').slice(1))?.box].flatMap((box) => (box ? [movedBox(here, box)] : []));
  if (element.name === 'text') return readWords(element, true).map((line) => movedBox(here, lineBox(line)));
  const own = shapeBoxes(element).map((box) => movedBox(here, grown(box, strokeOf(element) / 2)));
  return [...own, ...elementsOf(element).flatMap((child) => inkOf(child, here, glyphs))];
}

/** Boxes of a basic shape in its own units. */
function shapeBoxes({ name, attributes }: XmlElement): readonly Box[] {
  const number = (key: string): number => Number(attributes[key] ?? 0) || 0;
  if (name === 'path') return parsePath(attributes['d'] ?? '').flatMap((piece) => boxesAlong(piece, CURVE_STEPS));
  if (name === 'polygon' || name === 'polyline') return cornersBox(attributes['points'] ?? '');
  if (name === 'rect') return [{ left: number('x'), top: number('y'), right: number('x') + number('width'), bottom: number('y') + number('height') }];
  if (name !== 'ellipse' && name !== 'circle') return [];
  const [rx, ry] = name === 'circle' ? [number('r'), number('r')] : [number('rx'), number('ry')];
  return [{ left: number('cx') - rx, top: number('cy') - ry, right: number('cx') + rx, bottom: number('cy') + ry }];
}

/** Box of a polygon; beams are thin and nearly level, so one box will do. */
function cornersBox(points: string): readonly Box[] {
  const values = numbersOf(points);
  const corners = Array.from({ length: Math.floor(values.length / 2) }, (_, i) => ({ x: values[2 * i] ?? 0, y: values[2 * i + 1] ?? 0 }));
  return corners.length === 0 ? [] : [boxOf(corners)];
}

/** Width of the line in the element’s own units; SVG’s default is 1. */
function strokeOf({ attributes }: XmlElement): number {
  return Number(attributes['stroke-width'] ?? 1) || 0;
}

/** Centre of a note-head drawn by this `<use>`: the middle of the outline's own box. */
export function headCentre(use: XmlElement, at: Transform, glyphs: Glyphs): { readonly x: number; readonly y: number } | null {
  const box = glyphs.get((use.attributes['href'] ?? '').slice(1))?.box;
  if (!box) return null;
  const middle = { x: (box.left + box.right) / 2, y: (box.top + box.bottom) / 2 };
  return moved(composed(at, parseTransform(use.attributes['transform'])), middle);
}
