/**
 * The desk: files can be dropped anywhere on the page; they land in the form, where pupil and
 * piece are chosen.
 */

/** Endings that tell a score among dropped files. */
const SCORE = /\.(musicxml|mxl|xml)$/i;

/** Makes the whole page take files. */
export function startDesk(): void {
  const form = document.querySelector<HTMLFormElement>('form[data-drop]');
  if (form === null) return;
  form.querySelector('[data-drop-hint]')?.removeAttribute('hidden');
  document.addEventListener('dragover', (event) => {
    event.preventDefault();
    form.classList.add('over');
  });
  document.addEventListener('dragleave', (event) => {
    if (event.relatedTarget === null) form.classList.remove('over');
  });
  document.addEventListener('drop', (event) => {
    event.preventDefault();
    form.classList.remove('over');
    if (event.dataTransfer !== null) take(form, [...event.dataTransfer.files]);
  });
}

/** Puts dropped files into the form's own inputs, so that sending works as by hand. */
function take(form: HTMLFormElement, files: readonly File[]): void {
  const scores = files.filter((file) => SCORE.test(file.name));
  put(form, 'score', scores.slice(0, 1));
  put(form, 'recordings', [...files.filter((file) => !SCORE.test(file.name)), ...scores.slice(1)]);
  form.scrollIntoView({ block: 'nearest' });
  form.querySelector<HTMLElement>('select[name="pupil"], input[name="newPupil"]')?.focus();
}

/** Fills one file input, where there is anything for it. */
function put(form: HTMLFormElement, name: string, files: readonly File[]): void {
  const input = form.querySelector<HTMLInputElement>(`input[name="${name}"]`);
  if (input === null || files.length === 0) return;
  const transfer = new DataTransfer();
  for (const file of files) transfer.items.add(file);
  input.files = transfer.files;
}
