import { startKeys } from './keys.js';
import { startLighting } from './lighting.js';
import { startOpenBar } from './openBar.js';
import { startPlanDrag } from './planDrag.js';
import { startPlanForms } from './planForms.js';
import { fit, showWidth } from './width.js';

/** Where the choice between degrees and chord names is kept from page to page. */
const HARMONY_KEY = 'barwise-harmony';

/** A piece's page: keys, things that point to each other, the switch that stays as it was set, printing. */
export function startPiece(): void {
  if (document.querySelector('[data-piece]') === null) return;
  startOpenBar();
  startKeys();
  startLighting();
  startPlanForms();
  startPlanDrag();
  keepHarmony();
  offerPrint();
}

/** Remembers degrees or chord names; where nothing may be kept the page begins with degrees. */
function keepHarmony(): void {
  const choices = [...document.querySelectorAll<HTMLInputElement>('input[name="harmony"]')];
  const kept = choices.find((choice) => choice.value === readKept());
  if (kept !== undefined) kept.checked = true;
  for (const choice of choices) choice.addEventListener('change', () => keep(choice.value));
}

/** What was chosen last; null where nothing was or the browser keeps nothing. */
function readKept(): string | null {
  try {
    return window.localStorage.getItem(HARMONY_KEY);
  } catch {
    return null;
  }
}

/** Keeps a choice where the browser lets it. */
function keep(value: string): void {
  try {
    window.localStorage.setItem(HARMONY_KEY, value);
  } catch {
    // a browser that keeps nothing: the choice holds for this page
  }
}

/** The width that fits a sheet of paper best, px. */
const PAPER_PX = 968;

/** On the body while only the notes are printed: the style sheet leaves the score out. */
const NOTES_ALONE = 'notes-alone';

/** Shows the buttons that print; without script the browser's own menu does. */
function offerPrint(): void {
  for (const place of document.querySelectorAll<HTMLElement>('[data-print]')) {
    place.removeAttribute('hidden');
    place.querySelector('button')?.addEventListener('click', () => void print(place.dataset['print'] === 'notes'));
  }
}

/** Prints the notes, with the score in the width for paper unless they are wanted alone; then all is as it was. */
async function print(alone: boolean): Promise<void> {
  document.body.classList.toggle(NOTES_ALONE, alone);
  if (!alone) await showWidth(PAPER_PX);
  window.addEventListener('afterprint', () => {
    document.body.classList.remove(NOTES_ALONE);
    void fit();
  }, { once: true });
  window.print();
}
