/** Lesson sheet and term report: saved as they are typed, made anew where what they show changes, printed by a button. */
import { contentOf, isRefusal } from './savedForm.js';

/** Time without a key press before the sheet is sent, ms; as for comments. */
const PAUSE_MS = 700;

/** Starts the page, where it is one. */
export function startLessonSheet(): void {
  const form = document.querySelector<HTMLFormElement>('form[data-sheet]');
  if (form === null) return;
  document.documentElement.dataset['scripted'] = '';
  const print = document.querySelector<HTMLButtonElement>('[data-print]');
  if (print !== null) print.hidden = false;
  const save = inTurn(form);
  let waiting = 0;
  form.addEventListener('input', () => {
    form.dataset['unsaved'] = '';
    say('');
    window.clearTimeout(waiting);
    waiting = window.setTimeout(() => void save(), PAUSE_MS);
  });
  form.addEventListener('change', (event) => {
    // new bars want a new excerpt, a new first day other recordings
    if (event.target instanceof HTMLInputElement && event.target.dataset['renews'] !== undefined) void save().then((saved) => (saved ? window.location.reload() : undefined));
  });
  form.addEventListener('submit', (event) => {
    event.preventDefault();
    void save();
  });
  print?.addEventListener('click', () => void save().then((saved) => (saved ? window.print() : undefined)));
  window.addEventListener('beforeunload', (event) => {
    if (form.dataset['unsaved'] !== undefined) event.preventDefault();
  });
}

/** One request at a time, so that the newest text is always the last. True where the form is on the disk as it stands. */
function inTurn(form: HTMLFormElement): () => Promise<boolean> {
  let last: Promise<boolean> = Promise.resolve(true);
  return () => (last = last.then(() => send(form)));
}

/** Sends the form and says what came of it. */
async function send(form: HTMLFormElement): Promise<boolean> {
  const content = contentOf(form);
  say('saving …');
  try {
    const response = await fetch(form.action, { method: 'POST', body: content, headers: { Accept: 'application/json' } });
    const answer: unknown = await response.json();
    if (!response.ok) {
      say(`Not saved: ${isRefusal(answer) ? answer.error : 'the room did not understand.'}`);
      return false;
    }
  } catch {
    say('Not saved: the room does not answer. Your text stays here; it is sent again when you type on.');
    return false;
  }
  if (contentOf(form).toString() !== content.toString()) return false;
  delete form.dataset['unsaved'];
  say('saved');
  return true;
}

/** Says something beside the button; a screen reader says it too. */
function say(text: string): void {
  const place = document.querySelector('[data-saving]');
  if (place !== null) place.textContent = text;
}
