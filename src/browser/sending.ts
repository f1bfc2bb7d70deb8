/**
 * Files on their way in: a line for each of them that says what the room is doing with it now. Every word comes from the
 * room when the step begins; nothing here counts time or guesses how far it is.
 */

/** Nothing is shown before this, ms: what is done sooner is no waiting. */
const SHOWN_AFTER_MS = 300;

/** What the room sends: news of one file, or where it ends. */
interface Line {
  readonly at?: number;
  readonly text?: string;
  readonly href?: string;
  readonly page?: string;
}

/**
 * Lets a form of files be sent by the page itself.
 * @param onPage takes the page that shows what became of the files
 */
export function startSending(form: HTMLFormElement, onPage: (page: Document) => void): void {
  form.addEventListener('submit', (event) => {
    event.preventDefault();
    void send(form, onPage);
  });
}

/** Sends the form once; the button rests until it is answered. */
async function send(form: HTMLFormElement, onPage: (page: Document) => void): Promise<void> {
  const list = form.querySelector<HTMLElement>('[data-progress]');
  const button = form.querySelector<HTMLButtonElement>('button[type="submit"]');
  if (list === null || button === null) return;
  const content = new FormData(form);
  const lines = listFiles(list, content);
  const reveal = window.setTimeout(() => (list.hidden = false), SHOWN_AFTER_MS);
  button.disabled = true;
  try {
    await listen(await fetch(form.action, { method: 'POST', body: content, headers: { Accept: 'application/x-ndjson' } }), { lines, onPage });
  } catch {
    list.hidden = false;
    list.replaceChildren(entry('The room does not answer. The files are still chosen here: send them again when it is back.'));
  } finally {
    window.clearTimeout(reveal);
    button.disabled = false;
  }
}

/** A line for each file, in the order in which they are sent; an input left empty sends a file without a name. */
function listFiles(list: HTMLElement, content: FormData): readonly HTMLElement[] {
  const files = [...content.values()].filter((value): value is File => value instanceof File && value.name !== '');
  list.hidden = true;
  list.replaceChildren(...files.map((file) => entry('on its way', file.name)));
  return [...list.querySelectorAll<HTMLElement>('[data-news]')];
}

/** One line: the file's name, and its news. */
function entry(text: string, file?: string): HTMLElement {
  const item = document.createElement('li');
  const news = document.createElement('span');
  news.dataset['news'] = '';
  news.textContent = text;
  if (file !== undefined) {
    const name = document.createElement('strong');
    name.textContent = file;
    item.append(name, ': ');
  }
  item.append(news);
  return item;
}

/** Takes the answer line by line until the last one. @throws TypeError where it breaks off */
async function listen(response: Response, to: { readonly lines: readonly HTMLElement[]; readonly onPage: (page: Document) => void }): Promise<void> {
  const reader = response.body?.pipeThrough(new TextDecoderStream()).getReader();
  let rest = '';
  for (let part = await reader?.read(); part?.done === false; part = await reader?.read()) {
    const whole = (rest + part.value).split('\n');
    rest = whole.pop() ?? '';
    for (const line of whole.map(readLine)) {
      if (line.href !== undefined) window.location.assign(line.href);
      if (line.page !== undefined) to.onPage(new DOMParser().parseFromString(line.page, 'text/html'));
      if (line.href !== undefined || line.page !== undefined) return;
      const place = to.lines[line.at ?? -1];
      if (place !== undefined) place.textContent = line.text ?? '';
    }
  }
  throw new TypeError('the answer broke off');
}

/** One line as it was sent; an empty one where it is something else. */
function readLine(text: string): Line {
  const line: unknown = JSON.parse(text);
  return isLine(line) ? line : {};
}

/** True for an object whose news are a text. */
function isLine(line: unknown): line is Line {
  return typeof line === 'object' && line !== null && ['text', 'href', 'page'].every((name) => !(name in line) || typeof Object.entries(line).find(([key]) => key === name)?.[1] === 'string');
}
