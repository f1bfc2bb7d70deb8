/** What was just saved, shown where the page lists comments. */

/** What the server answers. */
export interface Saved {
  readonly id: number;
  readonly where: string;
  readonly href: string;
  readonly text: string;
}

/** The comment in the margin's list, new or changed. */
export function show(form: HTMLFormElement, saved: Saved): void {
  const shown = form.closest('[data-comment]')?.querySelector('[data-comment-text]');
  if (shown !== null && shown !== undefined) shown.textContent = saved.text;
  const list = document.querySelector('[data-comments]');
  if (list === null) return;
  document.querySelector('[data-no-comments]')?.setAttribute('hidden', '');
  const entry = list.querySelector(`[data-comment="${saved.id}"]`) ?? addEntry(list, saved);
  const link = entry.querySelector('a');
  // a change of the text leaves bars and try as they are
  if (link !== null && form.hasAttribute('data-new')) link.textContent = [inCapital(saved.where), tryOf(form)].filter((text) => text !== '').join(', ');
  const text = entry.querySelector('p');
  if (text !== null) text.textContent = saved.text;
}

/** The try that a form speaks of, as its list says it; empty where it is about all of them. */
function tryOf(form: HTMLFormElement): string {
  const chosen = form.querySelector<HTMLSelectElement>('select[name="try"]')?.selectedOptions[0];
  return chosen === undefined || chosen.value === '' ? '' : chosen.text;
}

/** A new entry of the margin's list. */
function addEntry(list: Element, saved: Saved): Element {
  const entry = document.createElement('li');
  const link = document.createElement('a');
  entry.dataset['comment'] = String(saved.id);
  link.href = saved.href;
  link.textContent = inCapital(saved.where);
  entry.append(link, document.createElement('p'));
  list.append(entry);
  return entry;
}

/** With a capital, for the start of an entry. */
function inCapital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
