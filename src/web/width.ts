import type { Request } from 'express';

/**
 * How wide the score is engraved. A score is never scaled: each width is engraved for itself, so that two, four or six
 * bars fill a system. The page asks with `?w=`, else the cookie of the page's script tells, else the middle one is
 * served, which scrolls inside its own box on a small screen.
 */
export const ENGRAVING_WIDTHS_PX = [358, 656, 940] as const;

/** Without script, for the tablet on the music desk. */
export const USUAL_WIDTH_PX = 656;

/** The width a request asks for, px; only those that are engraved. */
export function engravingWidth(request: Pick<Request, 'query' | 'headers'>): number {
  const asked = [request.query['w'], cookie(request.headers.cookie ?? '', 'barwise-width')].map(Number);
  return asked.find((width) => ENGRAVING_WIDTHS_PX.some((known) => known === width)) ?? USUAL_WIDTH_PX;
}

/** A cookie's value, or an empty text. */
function cookie(header: string, name: string): string {
  const pair = header.split(';').map((part) => part.trim()).find((part) => part.startsWith(`${name}=`));
  return pair === undefined ? '' : pair.slice(name.length + 1);
}
