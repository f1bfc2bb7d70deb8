/** The page that records from a keyboard, and the takes that an earlier page could not send. */
import { Shelf } from './recorderShelf.js';
import { RecorderPage } from './recorderPage.js';

/** Starts recording where this page offers it. */
export function startRecorder(): void {
  const main = document.querySelector<HTMLElement>('[data-recorder]');
  if (main !== null) void open(main);
}

/** Opens shelf and keyboards; says plainly what is missing. */
async function open(main: HTMLElement): Promise<void> {
  const shelf = await openShelf();
  if (shelf === null) {
    say(main, 'This browser keeps nothing in a private window, so a recording could be lost. Open the room in an ordinary window.');
    return;
  }
  const page = new RecorderPage(main, shelf);
  await page.showShelf();
  try {
    if (!window.isSecureContext) say(main, 'Over the network a browser lets no page hear a keyboard. Open the room on the computer that the piano is connected to.');
    else if (!('requestMIDIAccess' in navigator)) say(main, 'This browser cannot hear a keyboard: Chrome, Edge and Firefox can, on a computer or an Android tablet; Safari cannot.');
    else page.listen(await navigator.requestMIDIAccess());
  } catch {
    say(main, 'This browser was not allowed to hear the keyboard. Allow MIDI for this page and open it again.');
  }
}

/** The shelf, or null. */
async function openShelf(): Promise<Shelf | null> {
  try {
    return await Shelf.open();
  } catch {
    return null;
  }
}

/** Why nothing can be recorded here. */
function say(main: HTMLElement, text: string): void {
  const place = main.querySelector('[data-recorder-why]');
  if (place !== null) place.textContent = text;
  main.querySelector('[data-recorder-without]')?.removeAttribute('hidden');
}
