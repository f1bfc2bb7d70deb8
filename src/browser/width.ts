/**
 * Tells the server how wide to engrave. Three widths are served, so that the engraving is never scaled; the choice is
 * kept in a cookie, so that the next page comes right at once.
 */

/** Widths that are engraved, px, each with the narrowest window it fits. */
const WIDTHS = [
  { widthPx: 940, fromPx: 1428 },
  { widthPx: 656, fromPx: 724 },
  { widthPx: 358, fromPx: 0 },
] as const;

/** A year: the tablet on the music desk does not change its size. */
const COOKIE_AGE_S = 31_536_000;

/** The width that suits this window. */
export function suitableWidth(): number {
  return WIDTHS.find(({ fromPx }) => window.innerWidth >= fromPx)?.widthPx ?? 656;
}

/** Keeps the width for the next request. */
export function rememberWidth(widthPx: number): void {
  document.cookie = `width=${widthPx}; path=/; max-age=${COOKIE_AGE_S}; samesite=strict`;
}
