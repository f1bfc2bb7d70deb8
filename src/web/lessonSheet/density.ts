/** How tightly a lesson sheet is set, so that it stays one side: worked out from what stands on it, before anything is printed. */
import type { SheetBody } from './sheetBody.js';

/** Roomy, close, or closest. The style sheet knows the sizes. */
export type Density = 'roomy' | 'close' | 'closest';

/** Height of the printed side, px at 96 to the inch: the lower of two papers, 279.4 mm (Letter) less 2 × 14 mm, since a sheet may be printed on either. */
export const SIDE_PX = 950;

/** Height of a line, characters in a line, and how large an excerpt is, for each density; as in the style sheet. */
const SET: Readonly<Record<Density, { readonly linePx: number; readonly characters: number; readonly excerpt: number; readonly gapPx: number }>> = {
  roomy: { linePx: 24, characters: 84, excerpt: 1, gapPx: 20 },
  close: { linePx: 20, characters: 96, excerpt: 0.85, gapPx: 12 },
  closest: { linePx: 17, characters: 112, excerpt: 0.6, gapPx: 7 },
};

/** Head, headings, the lines about pain and the next lesson, px at the roomiest. */
const FRAME_LINES = 11;

/** The roomiest density at which everything is on one side. */
export function densityOf(body: SheetBody, excerptPx: readonly number[]): Density {
  return (['roomy', 'close'] as const).find((density) => heightOf(body, excerptPx, density) <= SIDE_PX) ?? 'closest';
}

/** Height of a sheet, px. */
export function heightOf({ well, things }: SheetBody, excerptPx: readonly number[], density: Density): number {
  const { linePx, characters, excerpt, gapPx } = SET[density];
  const lines = (text: string): number => text.split('\n').reduce((sum, part) => sum + Math.max(1, Math.ceil(part.length / characters)), 0);
  const written = lines(well) + things.reduce((sum, thing) => sum + 1 + lines(thing.words) + (thing.practise === '' ? 0 : lines(thing.practise)), 0);
  return (FRAME_LINES + written) * linePx + excerptPx.reduce((sum, heightPx) => sum + excerpt * heightPx, 0) + (things.length + 3) * gapPx;
}
