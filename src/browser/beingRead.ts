/**
 * Recordings that are still being read when the desk is opened: their lines come by themselves, one after another. A line that is open, or in
 * which something was written, is left as it is.
 */

import { pageAddress } from './renewDrawer.js';

/** Between two looks, ms: a recording takes about half a second. */
const LOOK_EVERY_MS = 1500;

/** Looks again as long as something is being read. */
export function startBeingRead(): void {
  if (document.querySelector('[data-being-read]') !== null) window.setTimeout(() => void look(), LOOK_EVERY_MS);
}

/** Takes over the lines that have come. */
async function look(): Promise<void> {
  try {
    const response = await fetch(pageAddress());
    const page = new DOMParser().parseFromString(await response.text(), 'text/html');
    const list = document.querySelector('[data-being-read]');
    for (const line of page.querySelectorAll('.desk-line')) takeOver(line);
    if (page.querySelector('[data-being-read]') === null) list?.removeAttribute('data-being-read');
  } catch {
    // the room does not answer just now: look again
  }
  startBeingRead();
}

/** Puts a line in the place of the one that is shown. */
function takeOver(fresh: Element): void {
  const shown = document.getElementById(fresh.id);
  if (shown === null || shown.querySelector('details[open], [data-unsaved]') !== null || shown.contains(document.activeElement)) return;
  if (shown.textContent !== fresh.textContent) shown.replaceWith(document.adoptNode(fresh));
}
