/**
 * Ready sentences beside a box to write in. Without script they are ticked and sent along; here a tick puts the sentence
 * into the box, where it can be changed before anything is sent.
 */

/** Watches every list of ready sentences of the page. */
export function startReady(): void {
  document.addEventListener('change', (event) => {
    const tick = event.target;
    if (!(tick instanceof HTMLInputElement) || tick.type !== 'checkbox') return;
    const list = tick.closest<HTMLElement>('[data-ready]');
    const box = tick.form?.querySelector('textarea');
    if (list === null || !box) return;
    tick.checked = false;
    tick.closest('label')?.setAttribute('hidden', '');
    list.hidden = list.querySelector('label:not([hidden])') === null;
    write(box, tick.value);
  });
}

/** Puts a sentence behind what is in a box, as if it had been typed. */
export function write(box: HTMLTextAreaElement, sentence: string): void {
  const before = box.value.trimEnd();
  box.value = before === '' ? sentence : `${before} ${sentence}`;
  box.dispatchEvent(new Event('input', { bubbles: true }));
  box.focus();
  box.setSelectionRange(box.value.length, box.value.length);
}
