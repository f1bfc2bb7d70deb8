/**
 * Comments are saved as they are typed. The page says "saved" only when the server has answered that the text is on
 * the disk; until then leaving the page asks first. Forms are found by delegation, so a score that is put in anew works.
 */

/**
 * Time without a key press before a text is sent, ms: short enough to feel at once, long enough
 * for a word.
 */
const PAUSE_MS = 700;

/** What the server answers. */
interface Saved {
  readonly id: number;
  readonly where: string;
  readonly href: string;
  readonly text: string;
}

/** Watches every comment form of the page. */
export function startSaving(): void {
  const waiting = new WeakMap<HTMLFormElement, number>();
  document.addEventListener('input', (event) => {
    const form = formOf(event.target);
    if (form === null) return;
    form.dataset['unsaved'] = 'yes';
    say(form, '');
    window.clearTimeout(waiting.get(form));
    waiting.set(form, window.setTimeout(() => void save(form), PAUSE_MS));
  });
  document.addEventListener('submit', (event) => {
    const form = formOf(event.target);
    if (form === null) return;
    event.preventDefault();
    window.clearTimeout(waiting.get(form));
    void save(form).then((saved) => (saved ? renew(form) : undefined));
  });
  window.addEventListener('beforeunload', (event) => {
    if (document.querySelector('form[data-unsaved]') !== null) event.preventDefault();
  });
}

/**
 * Sends one form and says what came of it; true where it is saved. Whatever was typed or chosen meanwhile
 * leaves it unsaved until its own turn.
 */
async function save(form: HTMLFormElement): Promise<boolean> {
  const sent = contentOf(form).toString();
  if (textOf(form).trim() === '') {
    say(form, form.hasAttribute('data-new') ? '' : 'Empty, so not saved; “take it off” removes it.');
    form.removeAttribute('data-unsaved');
    return false;
  }
  say(form, 'saving …');
  const outcome = await send(form);
  if (contentOf(form).toString() !== sent) return false;
  if (typeof outcome === 'string') {
    say(form, `Not saved: ${outcome}`);
    return false;
  }
  form.removeAttribute('data-unsaved');
  say(form, 'saved');
  show(form, outcome);
  return true;
}

/**
 * After the Save button: the drawer as the server shows it now, with the comment in it and a
 * fresh form below.
 */
async function renew(form: HTMLFormElement): Promise<void> {
  const drawer = form.closest('.drawer');
  if (drawer === null) return;
  const response = await fetch(window.location.pathname + window.location.search);
  if (!response.ok) return;
  const page = new DOMParser().parseFromString(await response.text(), 'text/html');
  const fresh = page.getElementById(drawer.id);
  if (fresh === null || form.dataset['unsaved'] !== undefined) return;
  drawer.replaceChildren(...fresh.childNodes);
  const next = drawer.querySelector<HTMLFormElement>('form[data-new]');
  if (next === null) return;
  say(next, 'saved');
  next.querySelector('textarea')?.focus({ preventScroll: true });
}

/** The server's answer, or in words why there is none. */
async function send(form: HTMLFormElement): Promise<Saved | string> {
  try {
    const response = await fetch(form.action, { method: 'POST', body: contentOf(form), headers: { Accept: 'application/json' } });
    const answer: unknown = await response.json();
    if (isSaved(answer)) return answer;
    return isRefusal(answer) ? answer.error : 'the room did not understand.';
  } catch {
    return 'the room does not answer. Your text stays here; save again when it is back.';
  }
}

/** The comment in the margin's list, new or changed. */
function show(form: HTMLFormElement, saved: Saved): void {
  const list = document.querySelector('[data-comments]');
  if (list === null) return;
  document.querySelector('[data-no-comments]')?.setAttribute('hidden', '');
  const entry = list.querySelector(`[data-comment="${saved.id}"]`) ?? addEntry(list, saved);
  const link = entry.querySelector('a');
  // a change of the text leaves bars and try as they are
  if (link !== null && form.hasAttribute('data-new')) link.textContent = [inCapital(saved.where), tryOf(form)].filter((text) => text !== '').join(', ');
  const text = entry.querySelector('p');
  if (text !== null) text.textContent = saved.text;
  const shown = form.closest('[data-comment]')?.querySelector('[data-comment-text]');
  if (shown !== null && shown !== undefined) shown.textContent = saved.text;
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

/** The comment form that something belongs to, or null. */
function formOf(target: EventTarget | null): HTMLFormElement | null {
  return target instanceof Element ? target.closest<HTMLFormElement>('form[data-autosave]') : null;
}

/** What is written in a form. */
function textOf(form: HTMLFormElement): string {
  return form.querySelector('textarea')?.value ?? '';
}

/** Everything that a form sends: text, bars, try. */
function contentOf(form: HTMLFormElement): URLSearchParams {
  const content = new URLSearchParams();
  for (const [name, value] of new FormData(form)) if (typeof value === 'string') content.append(name, value);
  return content;
}

/** Says something beside the form's button; a screen reader says it too. */
function say(form: HTMLFormElement, text: string): void {
  const place = form.querySelector('[data-saving]');
  if (place !== null) place.textContent = text;
}

/** True for the answer of a comment that is on the disk. */
function isSaved(answer: unknown): answer is Saved {
  return typeof answer === 'object' && answer !== null && 'id' in answer && 'where' in answer && 'href' in answer && 'text' in answer;
}

/** True for a refusal in words. */
function isRefusal(answer: unknown): answer is { readonly error: string } {
  return typeof answer === 'object' && answer !== null && 'error' in answer && typeof answer.error === 'string';
}
