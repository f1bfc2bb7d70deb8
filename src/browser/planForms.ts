/**
 * Changes of the pedal plan without leaving the page: a form is sent as it is, and what comes back takes the place of score and plan. Where
 * anything fails the browser sends the form itself, as it does without script.
 */
import { SCORE_CHANGED } from './width.js';

/** The table of places. */
const PLACES = '#plan-places';

/** What of the page is replaced. */
const RENEWED = ['#score', '#plan-panel', PLACES] as const;

/** Listens to all forms of the plan, also those that come later, and to the keys of its table. */
export function startPlanForms(): void {
  document.addEventListener('submit', (event) => {
    const form = event.target instanceof HTMLFormElement ? event.target : null;
    if (form === null || !form.matches('[data-plan-form]')) return;
    event.preventDefault();
    const data = new FormData(form, event.submitter);
    form.closest('dialog')?.close();
    void change(form.action, data);
  });
  document.addEventListener('keydown', onKey, true);
}

/** Sends a change and shows what came of it. */
export async function change(action: string, data: FormData): Promise<void> {
  const open = document.querySelector<HTMLDetailsElement>(PLACES)?.open === true;
  const atForm = document.activeElement !== null && document.activeElement.closest('.bar-plan') !== null;
  const response = await fetch(action, { method: 'POST', body: new URLSearchParams([...data].flatMap(([name, value]) => (typeof value === 'string' ? [[name, value]] : []))) });
  const fresh = new DOMParser().parseFromString(await response.text(), 'text/html');
  if (!response.ok) {
    say(fresh.querySelector('main p')?.textContent ?? 'This could not be done.');
    return;
  }
  for (const part of RENEWED) {
    const next = fresh.querySelector(part);
    if (next !== null) document.querySelector(part)?.replaceWith(document.adoptNode(next));
  }
  const table = document.querySelector<HTMLDetailsElement>(PLACES);
  if (table !== null) table.open = open;
  document.dispatchEvent(new CustomEvent(SCORE_CHANGED));
  const { hash } = window.location;
  if (hash !== '') window.location.replace(hash);
  goOnAt(new URL(response.url).searchParams.get('at'), { open, atForm });
}

/** The keyboard goes on where the change is now: in the table, in the bar's drawer, or at what was said. */
function goOnAt(tick: string | null, { open, atForm }: { readonly open: boolean; readonly atForm: boolean }): void {
  const row = tick === null ? null : document.getElementById(`${atForm ? 'bar-plan-' : 'plan-'}${tick}`);
  const fold = row?.closest<HTMLDetailsElement>('details.bar-plan');
  if (fold) fold.open = true;
  if (open || atForm) row?.focus({ preventScroll: !open });
  else document.querySelector<HTMLElement>('[data-plan-message] button')?.focus({ preventScroll: true });
}

/** Tells why nothing was changed. */
function say(text: string): void {
  const panel = document.querySelector('#plan-panel');
  panel?.querySelector('[data-plan-message]')?.remove();
  const message = document.createElement('div');
  message.className = 'message';
  message.dataset['planMessage'] = '';
  message.setAttribute('role', 'alert');
  const line = document.createElement('p');
  line.textContent = text;
  message.append(line);
  panel?.querySelector('h2')?.after(message);
}

/** In the table of places the arrows move what they stand at, and no bar. */
function onKey(event: KeyboardEvent): void {
  if (event.ctrlKey || event.metaKey || event.altKey) return;
  const row = event.target instanceof Element ? event.target.closest<HTMLElement>('[data-plan-row]') : null;
  if (row === null || !act(row, event.key)) return;
  event.preventDefault();
  event.stopPropagation();
}

/** Does what a key asks of a row; false where it asks nothing. */
function act(row: HTMLElement, key: string): boolean {
  switch (key) {
    case 'ArrowUp': return focus(row.previousElementSibling);
    case 'ArrowDown': return focus(row.nextElementSibling);
    case 'ArrowLeft': return press(row, 'earlier');
    case 'ArrowRight': return press(row, 'later');
    case '-':
    case 'Delete': return press(row, 'remove');
    case '+': return add(row);
    default: return false;
  }
}

/** To another row. */
function focus(row: Element | null): boolean {
  if (row instanceof HTMLElement) row.focus();
  return true;
}

/** One of the row's own buttons. */
function press(row: HTMLElement, what: string): boolean {
  row.querySelector<HTMLButtonElement>(`button[value^="${what} "]`)?.click();
  return true;
}

/** The bar's own drawer, where something can be added. */
function add(row: HTMLElement): boolean {
  const href = row.querySelector<HTMLAnchorElement>('th a')?.hash ?? '';
  if (href === '') return true;
  window.location.replace(href);
  const fold = document.getElementById(decodeURIComponent(href.slice(1)))?.querySelector<HTMLDetailsElement>('details.bar-plan');
  if (fold) {
    fold.open = true;
    fold.querySelector<HTMLSelectElement>('[data-plan-from]')?.focus();
  }
  return true;
}
