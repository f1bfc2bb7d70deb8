/**
 * The desk: files can be dropped anywhere on the page; they land in the form, where pupil and
 * piece are chosen.
 */

import { startBeingRead } from './beingRead.js';
import { startPhrases } from './phrases.js';
import { startReady } from './ready.js';
import { startSaving } from './saving.js';
import { startSending } from './sending.js';

/** Endings that tell a score among dropped files. */
const SCORE = /\.(musicxml|mxl|xml)$/i;

/** Makes the whole page take files. */
export function startDesk(): void {
  if (deskForm() === null) return;
  makeReady();
  startSaving();
  startReady();
  startPhrases();
  startBeingRead();
  document.addEventListener('dragover', (event) => {
    event.preventDefault();
    deskForm()?.classList.add('over');
  });
  document.addEventListener('dragleave', (event) => {
    if (event.relatedTarget === null) deskForm()?.classList.remove('over');
  });
  document.addEventListener('drop', (event) => {
    event.preventDefault();
    const form = deskForm();
    form?.classList.remove('over');
    if (form !== null && event.dataTransfer !== null) take(form, [...event.dataTransfer.files]);
  });
}

/** The form that takes files; another one after each sending. */
function deskForm(): HTMLFormElement | null {
  return document.querySelector<HTMLFormElement>('form[data-drop]');
}

/** What the form of this page needs. */
function makeReady(): void {
  const form = deskForm();
  if (form === null) return;
  form.querySelector('[data-drop-hint]')?.removeAttribute('hidden');
  startSending(form, showPage);
}

/** The desk as it is after files were put in: what became of them is read first. */
function showPage(page: Document): void {
  const fresh = page.querySelector('main');
  if (fresh === null) return;
  document.querySelector('main')?.replaceWith(document.adoptNode(fresh));
  makeReady();
  startBeingRead();
  const told = document.querySelector<HTMLElement>('[data-filed]');
  told?.focus();
  told?.scrollIntoView({ block: 'nearest' });
}

/** Puts dropped files into the form's own inputs, so that sending works as by hand. */
function take(form: HTMLFormElement, files: readonly File[]): void {
  const scores = files.filter((file) => SCORE.test(file.name));
  put(form, 'score', scores.slice(0, 1));
  put(form, 'recordings', [...files.filter((file) => !SCORE.test(file.name)), ...scores.slice(1)]);
  form.scrollIntoView({ block: 'nearest' });
  form.querySelector<HTMLElement>('button[type="submit"]')?.focus();
}

/** Fills one file input, where there is anything for it. */
function put(form: HTMLFormElement, name: string, files: readonly File[]): void {
  const input = form.querySelector<HTMLInputElement>(`input[name="${name}"]`);
  if (input === null || files.length === 0) return;
  const transfer = new DataTransfer();
  for (const file of files) transfer.items.add(file);
  input.files = transfer.files;
}
