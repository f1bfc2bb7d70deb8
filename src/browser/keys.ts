/**
 * The bars on the score are links that the browser itself can focus and follow; the keys only move between them.
 */
import { goTo, openDrawer } from './openBar.js';

/**
 * The keyboard: arrows walk the bars, Enter opens (the bars are links), C comments, Esc closes, ?
 * lists the keys.
 */

/** Listens to keys, except where someone is typing. */
export function startKeys(): void {
  const list = document.querySelector<HTMLDialogElement>('[data-keys-list]');
  document.querySelector('[data-keys-hint]')?.removeAttribute('hidden');
  document.querySelector('[data-keys]')?.addEventListener('click', () => list?.showModal());
  document.addEventListener('keydown', (event) => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    if (event.key === 'Escape' && list?.open !== true) close();
    else if (!isTyping(event.target) && act(event.key, list)) event.preventDefault();
  });
}

/** Does what a key asks; false where it asks nothing. */
function act(key: string, list: HTMLDialogElement | null): boolean {
  if (key === 'ArrowRight') return walk(1);
  if (key === 'ArrowLeft') return walk(-1);
  if (key === 'c' || key === 'C') return write();
  if (key === '?' && list !== null) {
    list.showModal();
    return true;
  }
  return false;
}

/** To the neighbouring bar: its drawer where one is open, else its link on the score. */
function walk(step: number): boolean {
  const targets = [...document.querySelectorAll<SVGAElement>('.bar-target')];
  const drawer = openDrawer();
  const here = document.activeElement;
  const current = drawer === null ? targets.findIndex((target) => target === here) : indexOf(targets, drawer.dataset['bar'] ?? '');
  const next = targets[current === -1 ? (step > 0 ? 0 : targets.length - 1) : current + step];
  if (next === undefined) return true;
  if (drawer !== null) goTo(next.getAttribute('href') ?? '#score');
  next.focus({ preventScroll: drawer !== null });
  return true;
}

/** Opens the bar at hand and puts the cursor into its comment box; false on pages where nothing is written. */
function write(): boolean {
  if (document.querySelector('form[data-new]') === null) return false;
  const targets = [...document.querySelectorAll<SVGAElement>('.bar-target')];
  const focused = targets.find((target) => target === document.activeElement);
  if (openDrawer() === null) goTo((focused ?? targets[0])?.getAttribute('href') ?? '#score');
  openDrawer()?.querySelector<HTMLTextAreaElement>('form[data-new] textarea')?.focus();
  return true;
}

/** Closes the drawer; the keyboard goes on at its bar. */
function close(): void {
  const bar = openDrawer()?.dataset['bar'];
  if (bar === undefined) return;
  goTo('#score');
  document.querySelector<SVGAElement>(`.bar-target[data-bar="${bar}"]`)?.focus();
}

/** Place of a bar among the links. */
function indexOf(targets: readonly SVGAElement[], bar: string): number {
  return targets.findIndex((target) => target.dataset['bar'] === bar);
}

/** True in fields where keys are letters, and where arrows choose. */
function isTyping(target: EventTarget | null): boolean {
  return target instanceof HTMLElement && target.closest('textarea, input, select, dialog') !== null;
}
