/** Marks, list entries, points of the lane and bars point to each other: touching one lights the others. */

/** What can be touched: each tells its bar, or the written notes it is about. */
const TOUCHABLE = '[data-notes], [data-note], .bar-target, .came-in-bar';

/** Lights things up under the pointer and under the keyboard's focus. */
export function startLighting(): void {
  for (const kind of ['pointerover', 'focusin']) document.addEventListener(kind, (event) => light(event.target));
  for (const kind of ['pointerleave', 'focusout']) document.addEventListener(kind, () => light(null));
}

/** Lights everything that belongs to the touched thing, and nothing else. */
function light(target: EventTarget | null): void {
  for (const lit of document.querySelectorAll('.lit')) lit.classList.remove('lit');
  const touched = target instanceof Element ? target.closest<HTMLElement | SVGElement>(TOUCHABLE) : null;
  if (touched === null) return;
  const notes = notesOf(touched);
  for (const other of document.querySelectorAll<HTMLElement | SVGElement>('[data-notes], [data-note]')) {
    const shares = notes.length > 0 ? notesOf(other).some((note) => notes.includes(note)) : other.dataset['bar'] === touched.dataset['bar'];
    other.classList.toggle('lit', shares);
  }
}

/** Ids of the written notes that something is about. */
function notesOf(element: HTMLElement | SVGElement): readonly string[] {
  return (element.dataset['notes'] ?? element.dataset['note'] ?? '').split(' ').filter((id) => id !== '');
}
