/**
 * Marks and points carry the ids of the written notes they are about, sentences list the ids they speak of; two
 * things belong together where they share one. Listening happens on the document, so a score that is put in later
 * needs nothing of its own.
 */
import { goTo } from './openBar.js';

/**
 * Marks, sentences, points of the lane, bars, rows of the table, columns of the ribbon and of the chart point to each other: touching
 * one lights the others. The chart is a picture and no element: it says which column is touched, and hears which bars are lit.
 */

/** What can be touched: each tells its bar or bars, or what it is about by name (written notes, pitfalls). */
const TOUCHABLE = '.seen > li, [data-sentence], .mark, .lane-point, .bar-target, .bar-table tbody tr, .ribbon .column';

/** What lights up. */
const LIGHTS = '.seen > li, [data-sentence], .mark, .lane-point, .under rect, .bar-table tbody tr, .ribbon .column';

/** What stands for a whole bar: it lights by the bar, also where the touched thing is about certain notes. */
const WHOLE_BARS = '.under rect, .bar-table tbody tr, .ribbon .column';

/** Fired on the document when a column of the chart is touched; `detail` is the bar's place, or null. */
export const COLUMN_TOUCHED = 'columntouched';

/** Fired on the document when bars are lit; `detail` is the list of their places. */
export const BARS_LIT = 'barslit';

/** Lights things up under the pointer and under the keyboard's focus. */
export function startLighting(): void {
  // where the page scrolls under a mouse that rests nothing was touched
  let resting = '';
  document.addEventListener('pointerover', (event) => {
    const place = `${event.pointerType} ${event.clientX} ${event.clientY}`;
    if (event.pointerType !== 'mouse' || place !== resting) light(event.target);
    resting = place;
  });
  document.addEventListener('focusin', (event) => light(event.target));
  for (const kind of ['pointerleave', 'focusout']) document.addEventListener(kind, () => light(null));
  document.addEventListener('click', (event) => open(event.target));
  document.addEventListener(COLUMN_TOUCHED, (event) => {
    const bar: unknown = event instanceof CustomEvent ? event.detail : null;
    light(typeof bar === 'string' ? document.querySelector(`.bar-table tbody tr[data-bar="${bar}"]`) : null);
  });
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
  const about = touched === null ? null : aboutOf(touched);
  document.dispatchEvent(new CustomEvent(BARS_LIT, { detail: [...(about?.bars ?? [])] }));
  if (about === null) return;
  for (const other of document.querySelectorAll<HTMLElement | SVGElement>(LIGHTS)) other.classList.toggle('lit', belongs(about, other));
}

/** What something is about. */
interface About {
  readonly element: Element;
  readonly notes: readonly string[];
  readonly bars: ReadonlySet<string>;
  /** A sentence about bars: it lights these bars and no other sentence. */
  readonly sentence: boolean;
}

/** Gathered once for the touched thing. */
function aboutOf(element: HTMLElement | SVGElement): About {
  return { element, notes: notesOf(element), bars: barsOf(element), sentence: element.matches('[data-sentence]') };
}

/** Whether something lights with what is touched: by a shared name where the touched thing has any, else by its bar. */
function belongs(touched: About, other: HTMLElement | SVGElement): boolean {
  if (other === touched.element) return true;
  if (other.matches(WHOLE_BARS)) return overlap(touched.bars, barsOf(other));
  if (touched.notes.length > 0) return notesOf(other).some((note) => touched.notes.includes(note));
  // a sentence about the whole piece would light with every bar
  if (touched.sentence || other.dataset['whole'] !== undefined) return false;
  return overlap(touched.bars, barsOf(other));
}

/** Whether two sets of bars share one. */
function overlap(one: ReadonlySet<string>, other: ReadonlySet<string>): boolean {
  return [...other].some((bar) => one.has(bar));
}

/** The bars of something: its own list ("3-8 12"), or the bar that it stands in. */
function barsOf(element: HTMLElement | SVGElement): ReadonlySet<string> {
  const list = element.dataset['bars'];
  if (list === undefined) return new Set([barOf(element) ?? []].flat());
  return new Set(list.split(' ').filter((part) => part !== '').flatMap((part) => {
    const [from = 0, to = from] = part.split('-').map(Number);
    return Array.from({ length: to - from + 1 }, (_, i) => String(from + i));
  }));
}

/** Names of what something is about: ids of written notes, or of a pitfall. */
function notesOf(element: HTMLElement | SVGElement): readonly string[] {
  return (element.dataset['notes'] ?? element.dataset['note'] ?? '').split(' ').filter((id) => id !== '');
}
