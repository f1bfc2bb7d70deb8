/**
 * Listening on the review page. Nothing is loaded and no sound is made before somebody asks for it; then the piano comes
 * once and stays.
 */

import type { OpenStrip, Wish } from './soundStrip.js';
import { SCORE_CHANGED } from './width.js';

/** Shows the strip, and waits for the first wish to hear something. */
export function startListening(): void {
  const strip = document.querySelector<HTMLElement>('[data-listen]');
  const tools = strip?.querySelector<HTMLElement>('[data-listen-tools]');
  if (strip === null || !tools || !('AudioContext' in window)) return;
  tools.hidden = false;
  addPlayButtons();
  document.addEventListener(SCORE_CHANGED, () => addPlayButtons());
  window.addEventListener('hashchange', () => addPlayButtons());
  const wish = once(strip);
  strip.addEventListener('click', (event) => {
    if (event.target instanceof Element && event.target.closest('[data-listen-play]') !== null) void wish(null);
  });
  // the lists are filled as soon as somebody reaches for them
  strip.addEventListener('focusin', () => void wish('ready'), { once: true });
  strip.addEventListener('pointerenter', () => void wish('ready'), { once: true });
  document.addEventListener('click', (event) => {
    const button = event.target instanceof Element ? event.target.closest<HTMLElement>('[data-play]') : null;
    if (button !== null) void wish(button);
  });
  document.addEventListener('keydown', (event) => {
    if (event.key !== ' ' || event.ctrlKey || event.metaKey || event.altKey || takesSpace(event.target)) return;
    event.preventDefault();
    void wish(null);
  });
}

/**
 * Loads the listening the first time; later wishes go to the same. The audio context is made while the hand's tap is still being answered: browsers
 * let nothing sound before one.
 */
function once(strip: HTMLElement): (wish: Wish) => Promise<void> {
  let listening: Promise<OpenStrip> | null = null;
  let context: AudioContext | null = null;
  const contextNow = (): AudioContext => (context ??= new AudioContext({ latencyHint: 'interactive' }));
  return async (wish) => {
    if (wish !== 'ready') void contextNow().resume();
    listening ??= import('./soundStrip.js').then(({ openStrip }) => openStrip(strip, contextNow));
    try {
      await (await listening).wish(wish);
    } catch {
      // the next wish begins anew only where nothing came; a strip that is there keeps what it has
      if (strip.querySelector('[data-listen-version] option:nth-child(2)') === null) listening = null;
      const words = strip.querySelector('[data-listen-words]');
      if (words !== null) words.textContent = 'The sound is not to be had: the room does not answer. Try again when it is back.';
    }
  };
}

/** True where the space bar has a meaning of its own. */
function takesSpace(target: EventTarget | null): boolean {
  return target instanceof HTMLElement && target.closest('textarea, input, select, button, summary, dialog, a') !== null;
}

/** A button at every remark, comment and open bar. */
function addPlayButtons(): void {
  for (const item of document.querySelectorAll<HTMLElement>('.remarks > li, .well > li, [data-comments] > li')) {
    if (item.querySelector('[data-play]') !== null) continue;
    const button = playButton(item.dataset['bars'] ?? item.dataset['bar'] ?? '');
    const acts = item.querySelector('.acts');
    if (acts === null) item.append(button);
    else acts.prepend(button);
  }
  for (const drawer of document.querySelectorAll<HTMLElement>('.drawer[data-bar]')) {
    const place = drawer.querySelector('.drawer-head nav');
    if (place?.querySelector('[data-play]') === null) place.prepend(playButton(drawer.dataset['bar'] ?? ''));
  }
}

/** A button that plays some bars. */
function playButton(bars: string): HTMLButtonElement {
  const button = document.createElement('button');
  button.type = 'button';
  button.className = 'plain';
  button.textContent = 'play';
  button.dataset['play'] = bars;
  return button;
}
