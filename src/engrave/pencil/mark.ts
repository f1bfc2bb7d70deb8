import { escapeXml } from '../xmlTree.js';
import { PENCIL_PX } from './stroke.js';

/** The shapes of the pencil; the shape says what. */
export type MarkKind = 'ring' | 'stretch' | 'late' | 'early' | 'missing' | 'added' | 'stop' | 'tick' | 'look';

/** What a mark says and what it belongs to. */
export interface MarkLabels {
  /** Read out and shown on hovering: one clause in words. */
  readonly title: string;
  /** Written as `data-…`; values of any text. */
  readonly data?: Readonly<Record<string, string | number>>;
  /** Seed of its irregularity. */
  readonly seed: number;
}

/** A mark's group: `mark mark-<kind>`, its colour `currentColor`, its strokes inside. */
export function markGroup(kind: MarkKind, { title, data = {} }: MarkLabels, strokes: string): string {
  const attributes = Object.entries(data).map(([name, value]) => ` data-${escapeXml(name)}="${escapeXml(String(value))}"`).join('');
  const look = `fill="none" stroke="currentColor" stroke-width="${PENCIL_PX}" stroke-linecap="round" stroke-linejoin="round"`;
  return `<g class="mark mark-${kind}"${attributes} role="img" ${look}><title>${escapeXml(title)}</title>${strokes}</g>`;
}
