/**
 * Marks and points carry the ids of the written notes they are about, sentences list the ids they speak of; two
 * things belong together where they share one. Listening happens on the document, so a score that is put in later
 * needs nothing of its own.
 */
import { goTo } from './openBar.js';

/**
 * Marks, list entries, points of the lane and bars point to each other: touching one lights the
 * others.
 */

/** What can be touched: each tells its bar, or the written notes it is about. */
const TOUCHABLE = '.seen > li, .mark, .lane-point, .bar-target';

/** What lights up. */
const LIGHTS = '.seen > li, .mark, .lane-point';

/** Lights things up under the pointer and under the keyboard's focus. */
export function startLighting(): void {
  for (const kind of ['pointerover', 'focusin']) document.addEventListener(kind, (event) => light(event.target));
  for (const kind of ['pointerleave', 'focusout']) document.addEventListener(kind, () => light(null));
  document.addEventListener('click', (event) => open(event.target));
}

/** A mark or a point of the lane opens its bar, as the bar itself would. */
function open(target: EventTarget | null): void {
  const touched = target instanceof Element ? target.closest('.mark, .lane-point') : null;
  const bar = touched === null ? undefined : barOf(touched);
  const link = bar === undefined ? null : document.querySelector(`.bar-target[data-bar="${bar}"]`);
  if (link !== null) goTo(link.getAttribute('href') ?? '#score');
}

/** The bar that something belongs to. */
function barOf(element: Element): string | undefined {
  return element.closest<HTMLElement | SVGElement>('[data-bar]')?.dataset['bar'];
}

/** Lights everything that belongs to the touched thing, and nothing else. */
function light(target: EventTarget | null): void {
  for (const lit of document.querySelectorAll('.lit')) lit.classList.remove('lit');
  const touched = target instanceof Element ? target.closest<HTMLElement | SVGElement>(TOUCHABLE) : null;
  if (touched === null) return;
  const notes = notesOf(touched);
  for (const other of document.querySelectorAll<HTMLElement | SVGElement>(LIGHTS)) {
    const shares = notes.length > 0 ? notesOf(other).some((note) => notes.includes(note)) : barOf(other) === barOf(touched);
    other.classList.toggle('lit', shares);
  }
}

/** Ids of the written notes that something is about. */
function notesOf(element: HTMLElement | SVGElement): readonly string[] {
  return (element.dataset['notes'] ?? element.dataset['note'] ?? '').split(' ').filter((id) => id !== '');
}
