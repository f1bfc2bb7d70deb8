/** Copying a message: with script it goes straight to the clipboard; without, the link leads to a page with the words. */

/** Lets every link and button that carries a message copy it. */
export function startCopying(): void {
  document.addEventListener('click', (event) => {
    const source = event.target instanceof Element ? event.target.closest<HTMLElement>('[data-copy]') : null;
    if (source === null) return;
    event.preventDefault();
    void copy(source);
  });
  for (const button of document.querySelectorAll('button[data-copy]')) button.removeAttribute('hidden');
}

/** Copies, and says so in the place of the link's words; where the clipboard is closed, the link is followed. */
async function copy(source: HTMLElement): Promise<void> {
  try {
    await navigator.clipboard.writeText(messageOf(source));
    say(source, 'copied');
  } catch {
    if (source instanceof HTMLAnchorElement) window.location.assign(source.href);
    else selectAll(source);
  }
}

/** The message: its own, or what stands in the box that it names. */
function messageOf(source: HTMLElement): string {
  return boxOf(source)?.value ?? source.dataset['copy'] ?? '';
}

/** Marks the text, so that it can be copied by hand. */
function selectAll(source: HTMLElement): void {
  boxOf(source)?.select();
  say(source, 'marked: copy it now');
}

/** The box of a page that shows a message. */
function boxOf(source: HTMLElement): HTMLTextAreaElement | null {
  return source.closest('form')?.querySelector<HTMLTextAreaElement>('textarea[data-message]') ?? null;
}

/** Says something beside a link; a screen reader says it too. */
function say(source: HTMLElement, text: string): void {
  const told = source.parentElement?.querySelector<HTMLElement>('[data-copied]') ?? document.createElement('span');
  told.dataset['copied'] = '';
  told.className = 'small';
  told.setAttribute('role', 'status');
  source.after(told);
  told.textContent = ` ${text}`;
}
