import type { Request } from 'express';

/**
 * How wide the score is engraved. A score is never scaled: each width is engraved for itself, so that two, four or six
 * bars fill a system. The page asks with `?w=`, else the cookie of the page's script tells, else the middle one is
 * served, which scrolls inside its own box on a small screen.
 */
export const ENGRAVING_WIDTHS_PX = [358, 656, 940] as const;

/** Without script, for the tablet on the music desk. */
export const USUAL_WIDTH_PX = 656;

/** The same for a score that has the page's whole width; on the widest pages the notes stand beside it. */
export const WHOLE_WIDTHS_PX = [358, 656, 968, 940] as const;

/** The width a request asks for, px; only those that are engraved. */
export function engravingWidth(request: Pick<Request, 'query' | 'headers'>): number {
  return asked(request, 'barwise-width', ENGRAVING_WIDTHS_PX);
}

/** The same for a score that has the page's whole width. */
export function wholeWidth(request: Pick<Request, 'query' | 'headers'>): number {
  return asked(request, 'barwise-whole-width', WHOLE_WIDTHS_PX);
}

/** What address or cookie ask for, where it is one of these widths. */
function asked({ query, headers }: Pick<Request, 'query' | 'headers'>, name: string, widths: readonly number[]): number {
  const wishes = [query['w'], cookie(headers.cookie ?? '', name)].map(Number);
  return wishes.find((width) => widths.includes(width)) ?? USUAL_WIDTH_PX;
}

/** A cookie's value, or an empty text. */
function cookie(header: string, name: string): string {
  const pair = header.split(';').map((part) => part.trim()).find((part) => part.startsWith(`${name}=`));
  return pair === undefined ? '' : pair.slice(name.length + 1);
}
