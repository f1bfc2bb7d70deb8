/**
 * Texts that the room has not yet said to be on its disk are kept in the browser too, so that a closed window or a dead computer loses
 * no more than the last key press. They come back into their forms with the key of the form that was lost: sent once more, they
 * are still one comment.
 */

/** Names of kept texts begin so. */
const KEPT = 'barwise-unsent:';

/** What a form is known by: where it is sent, and for a new comment which bar it is about. */
function nameOf(form: HTMLFormElement): string {
  const from = form.querySelector<HTMLInputElement>('input[name="from"]')?.value ?? '';
  return `${KEPT}${new URL(form.action).pathname} ${form.hasAttribute('data-new') ? `new ${from}` : ''}`;
}

/** Keeps what stands in a form; a browser that keeps nothing leaves it at the page. */
export function keepUnsent(form: HTMLFormElement, content: URLSearchParams): void {
  try {
    window.localStorage.setItem(nameOf(form), content.toString());
  } catch {
    // no storage, or no room in it
  }
}

/** The room has it. */
export function forgetUnsent(form: HTMLFormElement): void {
  try {
    window.localStorage.removeItem(nameOf(form));
  } catch {
    // nothing was kept
  }
}

/** Puts kept texts back into the forms of this page. @returns the forms that hold one now */
export function restoreUnsent(): readonly HTMLFormElement[] {
  return [...document.querySelectorAll<HTMLFormElement>('form[data-autosave]')].filter((form) => {
    const kept = keptFor(form);
    return kept !== null && fill(form, new URLSearchParams(kept));
  });
}

/** What is kept for a form, or null. */
function keptFor(form: HTMLFormElement): string | null {
  try {
    return window.localStorage.getItem(nameOf(form));
  } catch {
    return null;
  }
}

/** Fills a form with what it held, its key too, and opens the folds that it stands in; false where it holds that already. */
function fill(form: HTMLFormElement, content: URLSearchParams): boolean {
  const box = form.querySelector('textarea');
  if (box === null || box.value === content.get('text')) {
    forgetUnsent(form);
    return false;
  }
  for (const [name, value] of content) {
    const field = form.elements.namedItem(name);
    if (field instanceof HTMLInputElement || field instanceof HTMLSelectElement || field instanceof HTMLTextAreaElement) field.value = value;
  }
  for (let fold = form.closest('details'); fold !== null; fold = fold.parentElement?.closest('details') ?? null) fold.open = true;
  return true;
}
