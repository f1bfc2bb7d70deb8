/** A bar's drawer as the server shows it now. A form in it that still holds unsaved words is carried over as it is. */

/**
 * After the Save button: the drawer anew, with the comment in it and a fresh form below. Nothing is replaced where more
 * was typed into the saved form meanwhile.
 */
export async function renew(form: HTMLFormElement): Promise<void> {
  const drawer = form.closest('.drawer, [data-renew]');
  if (drawer === null) return;
  const response = await fetch(pageAddress());
  if (!response.ok) return;
  const page = new DOMParser().parseFromString(await response.text(), 'text/html');
  const fresh = page.getElementById(drawer.id);
  if (fresh === null || form.dataset['unsaved'] !== undefined) return;
  const writtenIn = focusedForm(drawer);
  if (!carryOver(drawer, fresh)) return;
  drawer.replaceChildren(...fresh.childNodes);
  const next = drawer.querySelector<HTMLFormElement>('form[data-new]');
  const place = next?.querySelector('[data-saving]');
  if (place) place.textContent = 'saved';
  // on the desk the answer is done, and the next line is at hand
  if (next !== null && !next.checkVisibility()) {
    drawer.querySelector('summary')?.focus();
    return;
  }
  const goOnIn = writtenIn !== null && drawer.contains(writtenIn) ? writtenIn : next;
  goOnIn?.querySelector('textarea')?.focus({ preventScroll: true });
}

/** Where this page is asked for again: its own address, unless it says another (the desk also answers forms). */
export function pageAddress(): string {
  return document.querySelector('main')?.dataset['page'] ?? window.location.pathname + window.location.search;
}

/** Puts every form with unsaved words into the place of its twin; false where one has no twin any more. */
function carryOver(drawer: Element, fresh: Element): boolean {
  const pairs = [...drawer.querySelectorAll<HTMLFormElement>('form[data-unsaved]')].map((form) => ({ form, twin: twinOf(form, fresh) }));
  if (pairs.some(({ twin }) => twin === undefined)) return false;
  for (const { form, twin } of pairs) {
    const fold = twin?.closest('details');
    if (fold) fold.open = true;
    twin?.replaceWith(form);
  }
  return true;
}

/** The same form in the new drawer: what is sent to one address from one kind of form. */
function twinOf(form: HTMLFormElement, fresh: Element): HTMLFormElement | undefined {
  return [...fresh.querySelectorAll<HTMLFormElement>('form[data-autosave]')].find(
    (other) => other.getAttribute('action') === form.getAttribute('action') && other.hasAttribute('data-new') === form.hasAttribute('data-new'),
  );
}

/** The form in the drawer that is being written in, if it holds unsaved words. */
function focusedForm(drawer: Element): HTMLFormElement | null {
  const form = document.activeElement?.closest<HTMLFormElement>('form[data-unsaved]') ?? null;
  return form !== null && drawer.contains(form) ? form : null;
}
