/**
 * Which bar is open is kept in the address and nowhere else: style sheet, Back button and shared links agree.
 */
import { SCORE_CHANGED } from './width.js';

/**
 * The bar in the address: its wash on the score, its column on the ribbon, and where the keyboard
 * goes on.
 */

/** Marks the open bar now and whenever the address changes. */
export function startOpenBar(): void {
  window.addEventListener('hashchange', () => show());
  document.addEventListener(SCORE_CHANGED, () => show());
  show();
}

/** The drawer that is open, or null. */
export function openDrawer(): HTMLElement | null {
  const id = decodeURIComponent(window.location.hash.slice(1));
  const found = id === '' ? null : document.getElementById(id);
  return found?.classList.contains('drawer') === true ? found : null;
}

/** Opens a bar without filling the history, or closes the open one. */
export function goTo(href: string): void {
  window.location.replace(href);
}

/** Puts the class `open` on everything of the open bar, and takes it off the rest. */
function show(): void {
  const bar = openDrawer()?.dataset['bar'] ?? '';
  for (const element of document.querySelectorAll<SVGElement>('.under rect, .ribbon .column, .bar-target')) {
    element.classList.toggle('open', bar !== '' && element.dataset['bar'] === bar);
  }
}
