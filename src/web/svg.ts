import { pencilStroke } from '../engrave/index.js';

/**
 * Small helpers for the SVG that is drawn here. No style attributes: the page's security policy
 * forbids them.
 */

/** Text made safe for markup and for attribute values in double quotes. */
export function escaped(text: string): string {
  return text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('"', '&quot;').replaceAll("'", '&#39;');
}

/** A coordinate with at most one decimal. */
export function px(value: number): string {
  return String(Math.round(value * 10) / 10);
}

/** Attributes of an element: numbers are px, texts are made safe. */
export type Attributes = Readonly<Record<string, string | number>>;

/**
 * An element with its attributes.
 * @param inner markup that is safe already
 */
export function element(name: string, attributes: Attributes, inner = ''): string {
  const written = Object.entries(attributes).map(([key, value]) => ` ${key}="${typeof value === 'number' ? px(value) : escaped(value)}"`);
  return `<${name}${written.join('')}>${inner}</${name}>`;
}

/** A line or shape by its path data, with a class that the style sheet knows. */
export function path(className: string, data: string): string {
  return element('path', { class: className, d: data });
}

/** A whole drawing whose user units are px. */
export function drawing(size: { readonly widthPx: number; readonly heightPx: number }, attributes: Attributes, inner: string): string {
  const { widthPx, heightPx } = size;
  return element('svg', { ...attributes, width: widthPx, height: heightPx, viewBox: `0 0 ${px(widthPx)} ${px(heightPx)}` }, inner);
}

/** A hand wavers once in about so many px. */
const WAVER_EVERY_PX = 60;

/** A level pencil line: straight but for a slight, seeded waver, as one SVG path. */
export function pencilLine(fromX: number, toX: number, at: { readonly y: number; readonly seed: number }): string {
  const pieces = Math.max(1, Math.round(Math.abs(toX - fromX) / WAVER_EVERY_PX));
  const points = Array.from({ length: pieces + 1 }, (_, i) => ({ x: fromX + ((toX - fromX) * i) / pieces, y: at.y }));
  return pencilStroke(points, { seed: at.seed, jitterPx: 0.5, plain: true });
}
