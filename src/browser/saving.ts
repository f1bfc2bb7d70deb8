/**
 * Comments are saved as they are typed. The page says "saved" only when the server has answered that the text is on
 * the disk; until then leaving the page asks first. Forms are found by delegation, so a score that is put in anew works.
 */
import { renew } from './renewDrawer.js';
import { contentOf, isRefusal } from './savedForm.js';
import { show, type Saved } from './savedList.js';
import { forgetUnsent, keepUnsent, restoreUnsent } from './unsent.js';

/**
 * Time without a key press before a text is sent, ms: short enough to feel at once, long enough
 * for a word.
 */
const PAUSE_MS = 700;

/** Time after which a text is sent again where the room did not answer, ms. */
const AGAIN_MS = 5000;

/** Sends a form when its turn has come; true where everything in it is on the disk then. */
type Save = (form: HTMLFormElement) => Promise<boolean>;

/** Watches every comment form of the page. */
export function startSaving(): void {
  const save = inTurn();
  const waiting = new WeakMap<HTMLFormElement, number>();
  const later = (form: HTMLFormElement, ms: number): void => {
    window.clearTimeout(waiting.get(form));
    waiting.set(form, window.setTimeout(() => void save(form).then((saved) => again(form, saved)), ms));
  };
  // what the room did not take is sent again until it does
  const again = (form: HTMLFormElement, saved: boolean): void => {
    if (!saved && form.isConnected && form.dataset['unsaved'] !== undefined) later(form, AGAIN_MS);
  };
  document.addEventListener('input', (event) => {
    const form = formOf(event.target);
    if (form === null) return;
    form.dataset['unsaved'] = 'yes';
    keepUnsent(form, contentOf(form));
    say(form, '');
    later(form, PAUSE_MS);
  });
  for (const form of restoreUnsent()) {
    form.dataset['unsaved'] = 'yes';
    say(form, 'kept in this browser, not saved yet');
    later(form, PAUSE_MS);
  }
  document.addEventListener('submit', (event) => {
    const form = formOf(event.target);
    if (form === null) return;
    event.preventDefault();
    window.clearTimeout(waiting.get(form));
    void save(form).then((saved) => (saved ? renew(form) : again(form, saved)));
  });
  window.addEventListener('beforeunload', (event) => {
    if (document.querySelector('form[data-unsaved]') !== null) event.preventDefault();
  });
}

/**
 * One request of a form at a time: two on their way together could arrive in the wrong order, and the older text would
 * stay. Each sends what stands in the form when its turn comes, so the newest text is always the last.
 */
function inTurn(): Save {
  const last = new WeakMap<HTMLFormElement, Promise<boolean>>();
  const onDisk = new WeakMap<HTMLFormElement, string>();
  return (form) => {
    const turn = (last.get(form) ?? Promise.resolve(true)).then(() => saveOnce(form, onDisk));
    last.set(form, turn);
    return turn;
  };
}

/**
 * Sends one form and says what came of it. Whatever was typed or chosen meanwhile leaves it unsaved until its own turn;
 * what is on the disk already is not sent again.
 */
async function saveOnce(form: HTMLFormElement, onDisk: WeakMap<HTMLFormElement, string>): Promise<boolean> {
  const sent = contentOf(form);
  if (textOf(form).trim() === '') {
    sayEmpty(form, onDisk.has(form));
    return false;
  }
  if (onDisk.get(form) !== sent.toString()) {
    say(form, 'saving …');
    const outcome = await send(form, sent);
    if (typeof outcome === 'string') {
      say(form, `Not saved: ${outcome}`);
      return false;
    }
    onDisk.set(form, sent.toString());
    show(form, outcome);
  }
  if (contentOf(form).toString() !== sent.toString()) return false;
  form.removeAttribute('data-unsaved');
  forgetUnsent(form);
  say(form, 'saved');
  return true;
}

/** The server's answer, or in words why there is none. */
async function send(form: HTMLFormElement, content: URLSearchParams): Promise<Saved | string> {
  try {
    const response = await fetch(form.action, { method: 'POST', body: content, headers: { Accept: 'application/json' } });
    const answer: unknown = await response.json();
    if (isSaved(answer)) return answer;
    return isRefusal(answer) ? answer.error : 'the room did not understand.';
  } catch {
    return 'the room does not answer. Your text is kept in this browser, and sent when it is back.';
  }
}

/** The comment form that something belongs to, or null. */
function formOf(target: EventTarget | null): HTMLFormElement | null {
  return target instanceof Element ? target.closest<HTMLFormElement>('form[data-autosave]') : null;
}

/** What is written in a form. */
function textOf(form: HTMLFormElement): string {
  return form.querySelector('textarea')?.value ?? '';
}

/** An empty text takes nothing off: what was saved before stays, and that is said. */
function sayEmpty(form: HTMLFormElement, wasSaved: boolean): void {
  form.removeAttribute('data-unsaved');
  forgetUnsent(form);
  const isNew = form.hasAttribute('data-new') && !wasSaved;
  say(form, isNew ? '' : 'Empty, so not saved; the comment stays as it was. “take it off” removes it.');
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
