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

/** A hand wavers once in about so many px. */
const WAVER_EVERY_PX = 60;

/** A level pencil line: straight but for a slight, seeded waver, as one SVG path. */
export function pencilLine(fromX: number, toX: number, at: { readonly y: number; readonly seed: number }): string {
  const pieces = Math.max(1, Math.round(Math.abs(toX - fromX) / WAVER_EVERY_PX));
  const points = Array.from({ length: pieces + 1 }, (_, i) => ({ x: fromX + ((toX - fromX) * i) / pieces, y: at.y }));
  return pencilStroke(points, { seed: at.seed, jitterPx: 0.5, plain: true });
}
