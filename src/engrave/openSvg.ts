import { fixed } from './numbers.js';

/** The opening tag of a system's `<svg>`: user units are px, origin top left; what reaches a little over its edge still shows. */
export function openSvg(widthPx: number, heightPx: number): string {
  const [width, height] = [fixed(widthPx), fixed(heightPx)];
  return `<svg xmlns="http://www.w3.org/2000/svg" class="system" width="${width}" height="${height}" viewBox="0 0 ${width} ${height}" overflow="visible" font-family="Alegreya, Georgia, serif">`;
}
