/**
 * The teacher's own phrases while she types: a list under the box, walked with the arrow keys, taken with Enter, closed with
 * Escape. The box stays an ordinary box: nothing is put into it that was not chosen.
 */

/** Most phrases shown at once. */
const MOST_SHOWN = 6;

/** So much of a sentence (>=) must stand there before something is offered, letters. */
const LEAST_TYPED = 2;

/** The list that is open, and for which box. */
interface Open {
  readonly box: HTMLTextAreaElement;
  readonly list: HTMLElement;
  readonly from: number;
  active: number;
}

/** Watches every box of a comment on the page. */
export function startPhrases(): void {
  const phrases = once(loadPhrases);
  let open: Open | null = null;
  const close = (): void => {
    if (open === null) return;
    open.list.remove();
    open.box.removeAttribute('aria-activedescendant');
    open.box.removeAttribute('aria-controls');
    open = null;
  };
  document.addEventListener('focusin', (event) => {
    const box = boxOf(event.target);
    if (box === null) return;
    box.setAttribute('aria-autocomplete', 'list');
    box.setAttribute('aria-haspopup', 'listbox');
    void phrases();
  });
  document.addEventListener('input', (event) => {
    const box = boxOf(event.target);
    if (box === null || !(event instanceof InputEvent)) return;
    void phrases().then((all) => {
      close();
      open = document.activeElement === box ? offer(box, all) : null;
    });
  });
  document.addEventListener('focusout', (event) => {
    if (open !== null && event.target === open.box) close();
  });
  document.addEventListener('keydown', (event) => {
    if (open !== null && event.target === open.box && handled(open, event.key)) {
      event.preventDefault();
      event.stopPropagation();
      if (event.key === 'Escape' || event.key === 'Enter') close();
    }
  }, true);
  document.addEventListener('pointerdown', (event) => {
    const option = event.target instanceof Element ? event.target.closest('[data-phrase]') : null;
    if (open === null || option === null) return;
    event.preventDefault();
    take(open, option.textContent);
    close();
  });
}

/** True where a key was for the list. */
function handled(open: Open, key: string): boolean {
  const count = open.list.querySelectorAll('[data-phrase]').length;
  if (key === 'ArrowDown') light(open, (open.active + 1) % count);
  else if (key === 'ArrowUp' && open.active >= 0) light(open, open.active - 1);
  else if (key === 'Enter' && open.active >= 0) take(open, open.list.querySelectorAll('[data-phrase]')[open.active]?.textContent ?? '');
  else return key === 'Escape';
  return true;
}

/** Marks one phrase; -1 goes back into the box. */
function light(open: Open, at: number): void {
  open.active = at;
  open.box.removeAttribute('aria-activedescendant');
  for (const [i, option] of [...open.list.querySelectorAll('[data-phrase]')].entries()) {
    option.setAttribute('aria-selected', String(i === at));
    if (i === at) open.box.setAttribute('aria-activedescendant', option.id);
  }
}

/** Puts a phrase in the place of what was begun. */
function take({ box, from }: Open, phrase: string): void {
  const end = box.selectionStart;
  box.setRangeText(phrase, from, end, 'end');
  box.dispatchEvent(new Event('input', { bubbles: true }));
}

/** Opens the list under a box, or nothing where nothing fits. */
function offer(box: HTMLTextAreaElement, all: readonly string[]): Open | null {
  const { begun, from } = sentenceAt(box);
  const fitting = begun.length < LEAST_TYPED ? [] : fit(all, begun.toLowerCase());
  if (fitting.length === 0) return null;
  const list = document.createElement('div');
  list.className = 'phrases';
  const options = document.createElement('ul');
  options.id = 'own-phrases';
  options.setAttribute('role', 'listbox');
  options.setAttribute('aria-label', 'Your own phrases');
  options.append(...fitting.map((phrase, i) => optionOf(phrase, i)));
  const told = document.createElement('p');
  told.className = 'small';
  told.setAttribute('role', 'status');
  told.textContent = `${fitting.length === 1 ? 'One of your own phrases' : `${fitting.length} of your own phrases`}: arrow down, then Enter`;
  list.append(options, told);
  box.after(list);
  box.setAttribute('aria-controls', options.id);
  return { box, list, from, active: -1 };
}

/** One phrase in the list. */
function optionOf(phrase: string, i: number): HTMLElement {
  const option = document.createElement('li');
  option.id = `own-phrase-${i}`;
  option.dataset['phrase'] = '';
  option.setAttribute('role', 'option');
  option.setAttribute('aria-selected', 'false');
  option.textContent = phrase;
  return option;
}

/** Phrases that begin so first, then those with a word that does. */
function fit(all: readonly string[], begun: string): readonly string[] {
  const others = all.filter((phrase) => phrase.toLowerCase() !== begun);
  const first = others.filter((phrase) => phrase.toLowerCase().startsWith(begun));
  const within = others.filter((phrase) => !first.includes(phrase) && phrase.toLowerCase().includes(` ${begun}`));
  return [...first, ...within].slice(0, MOST_SHOWN);
}

/** The sentence that is being written: from the last end of one to the cursor. */
function sentenceAt(box: HTMLTextAreaElement): { readonly begun: string; readonly from: number } {
  const before = box.value.slice(0, box.selectionStart);
  const from = Math.max(...['. ', '! ', '? ', ': ', '\n'].map((end) => before.lastIndexOf(end) + (before.includes(end) ? end.length : 1)), 0);
  return { begun: before.slice(from).trimStart(), from: from + (before.slice(from).length - before.slice(from).trimStart().length) };
}

/** The box of a comment's form, or null. */
function boxOf(target: EventTarget | null): HTMLTextAreaElement | null {
  return target instanceof HTMLTextAreaElement && target.form?.hasAttribute('data-autosave') === true ? target : null;
}

/** Loads at the first call, and gives the same again. */
function once<T>(load: () => Promise<T>): () => Promise<T> {
  let loaded: Promise<T> | null = null;
  return () => (loaded ??= load());
}

/** Her phrases; none where the room does not answer. */
async function loadPhrases(): Promise<readonly string[]> {
  try {
    const answer: unknown = await (await fetch('/phrases')).json();
    if (typeof answer !== 'object' || answer === null || !('phrases' in answer) || !Array.isArray(answer.phrases)) return [];
    return answer.phrases.filter((phrase) => typeof phrase === 'string');
  } catch {
    return [];
  }
}
