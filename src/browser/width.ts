/**
 * Tells the server how wide to engrave. Three widths are served, so that the engraving is never scaled; the choice is
 * kept in a cookie, so that the next page comes right at once. Where this page came in another width, its score is
 * fetched again and put in place.
 */

/**
 * Widths that are engraved, px, each with the narrowest window it fits (as in the style sheet): beside a margin, and over the
 * whole width of a piece's page.
 */
const WIDTHS = [
  { widthPx: 940, wholePx: 940, fromPx: 1428 },
  { widthPx: 656, wholePx: 968, fromPx: 1024 },
  { widthPx: 656, wholePx: 656, fromPx: 724 },
  { widthPx: 358, wholePx: 358, fromPx: 0 },
] as const;

/** A year: the tablet on the music desk does not change its size. */
const COOKIE_AGE_S = 31_536_000;

/** Time to wait after the window has changed its size, ms. */
const SETTLED_MS = 250;

/** Fired on the document when a score of another width has been put in. */
export const SCORE_CHANGED = 'scorechanged';

/** Asks for the width that suits the window, now and when its size changes. */
export function keepWidth(): void {
  let waiting = 0;
  void fit();
  window.addEventListener('resize', () => {
    window.clearTimeout(waiting);
    waiting = window.setTimeout(() => void fit(), SETTLED_MS);
  });
}

/** The widths that suit this window. */
function suitableWidths(): Pick<(typeof WIDTHS)[number], 'widthPx' | 'wholePx'> {
  return WIDTHS.find(({ fromPx }) => window.innerWidth >= fromPx) ?? { widthPx: 656, wholePx: 656 };
}

/** Keeps the width, and changes the score of this page where it came in another one. */
export async function fit(): Promise<void> {
  const { widthPx, wholePx } = suitableWidths();
  keepCookie('barwise-width', widthPx);
  keepCookie('barwise-whole-width', wholePx);
  const whole = document.querySelector<HTMLElement>('#score')?.dataset['whole'] !== undefined;
  await showWidth(whole ? wholePx : widthPx);
}

/** Puts the score of this page in, engraved in some width; nothing happens where it has that width, or where a comment is being written. */
export async function showWidth(widthPx: number): Promise<void> {
  const score = document.querySelector<HTMLElement>('#score');
  if (score === null || Number(score.dataset['width']) === widthPx || isBeingWritten()) return;
  const response = await fetch(addressWith(widthPx));
  if (!response.ok) return;
  const page = new DOMParser().parseFromString(await response.text(), 'text/html');
  const fresh = page.querySelector('#score');
  if (fresh === null || isBeingWritten()) return;
  score.replaceWith(document.adoptNode(fresh));
  document.dispatchEvent(new CustomEvent(SCORE_CHANGED));
  openAgain();
}

/** This page's address, asking for a width. */
function addressWith(widthPx: number): string {
  const query = new URLSearchParams(window.location.search);
  query.set('w', String(widthPx));
  return `${window.location.pathname}?${query.toString()}`;
}

/** So that the server knows at the next page. */
function keepCookie(name: string, widthPx: number): void {
  document.cookie = `${name}=${widthPx}; path=/; max-age=${COOKIE_AGE_S}; samesite=strict`;
}

/** True where a comment holds text that is not yet saved: then nothing is replaced. */
function isBeingWritten(): boolean {
  return document.querySelector('form[data-unsaved]') !== null;
}

/** The new part of the page becomes the target of the address once more. */
function openAgain(): void {
  const { hash } = window.location;
  if (hash !== '') window.location.replace(hash);
}
