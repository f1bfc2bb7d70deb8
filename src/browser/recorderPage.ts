/** What is seen of recording: keyboards, level, pedal, the count, and what is still on the shelf. */
import { Sender, type Outcome } from './recorderSend.js';
import type { Shelf, ShelvedTake } from './recorderShelf.js';
import { readMessage, Take } from './recorderTake.js';

/** The level that is shown falls by this share every time it is drawn, sixty times a second: gone in a second. */
const FALLS = 0.05;

/** A take without a note is not shown, and goes after this time, ms: until then another page may still be about to play. */
const EMPTY_KEPT_MS = 3_600_000;

/** Hardest stroke and pedal. */
const FULL = 127;

/** The page at work. */
export class RecorderPage {
  readonly #main: HTMLElement;
  readonly #shelf: Shelf;
  readonly #sender: Sender;
  readonly #form: HTMLFormElement;
  #take: Take | null = null;
  #startedMs = 0;
  #level = 0;
  #pedal = 0;
  #after: string | null = null;

  /** @throws TypeError where the page lacks its form */
  constructor(main: HTMLElement, shelf: Shelf) {
    this.#main = main;
    this.#shelf = shelf;
    const form = main.querySelector<HTMLFormElement>('[data-recorder-form]');
    if (form === null) throw new TypeError('the page has no form');
    this.#form = form;
    this.#sender = new Sender(shelf, { told: (take, outcome) => void this.#told(take, outcome), settled: () => void this.showShelf() });
    this.#on('start', () => void this.#start());
    this.#on('stop', () => void this.#stop());
    this.#on('keep', () => void this.#keep());
    this.#on('drop', () => void this.#drop());
    form.addEventListener('submit', (event) => event.preventDefault());
    this.#sender.send();
  }

  /** Hears every keyboard that is connected now or later. */
  listen(access: MIDIAccess): void {
    this.#form.hidden = false;
    access.addEventListener('statechange', () => this.#connect(access));
    this.#connect(access);
    window.requestAnimationFrame(() => this.#draw());
  }

  /** Takes of earlier pages: those that nobody stopped are stopped now. */
  async showShelf(): Promise<void> {
    const takes = (await this.#shelf.takes()).filter(({ key }) => key !== this.#take?.record.key);
    const list = this.#part('list');
    list.replaceChildren();
    for (const take of takes) {
      const messages = await this.#shelf.messages(take.key);
      const notes = messages.filter(([, status, , velocity]) => status >> 4 === 0x9 && velocity > 0).length;
      const old = Date.now() - Date.parse(take.startedAt) > EMPTY_KEPT_MS;
      if (notes > 0 || take.state === 'wanted') list.append(this.#line(take, notes));
      else if (old) await this.#shelf.drop(take.key);
    }
    this.#part('waiting').hidden = list.children.length === 0;
  }

  /** One take on the shelf. */
  #line(take: ShelvedTake, notes: number): HTMLElement {
    const item = document.createElement('li');
    item.dataset['take'] = take.key;
    const text = document.createElement('span');
    const when = new Date(take.startedAt).toLocaleString('en-GB', { dateStyle: 'medium', timeStyle: 'short' });
    text.textContent = `${when}, ${notes} notes: ${take.state === 'wanted' ? 'on its way to the room' : 'not yet kept'}`;
    item.append(text);
    if (take.state !== 'wanted') {
      const keep = button('keep it and review it', () => void this.#shelf.put({ ...take, ...this.#whose(take), state: 'wanted' }).then(() => this.#send(take.key)));
      const drop = button('throw it away', () => void this.#shelf.drop(take.key).then(() => this.showShelf()));
      item.append(keep, drop);
    }
    return item;
  }

  /** Sends what is wanted; this page goes on to the review of one of them. */
  #send(key: string): void {
    this.#after = key;
    this.#sender.send();
    void this.showShelf();
  }

  /** Listens to the chosen keyboards and says which are there. */
  #connect(access: MIDIAccess): void {
    const inputs = [...access.inputs.values()].filter(({ state }) => state === 'connected');
    const select = this.#form.querySelector<HTMLSelectElement>('[data-recorder-inputs]');
    const chosen = select?.value ?? '';
    select?.replaceChildren(new Option('every keyboard that is connected', ''), ...inputs.map(({ id, name }) => new Option(name ?? 'keyboard', id)));
    if (select !== null && inputs.some(({ id }) => id === chosen)) select.value = chosen;
    for (const input of inputs) {
      input.onmidimessage = ({ data, timeStamp }) => {
        if (data !== null && (select === null || select.value === '' || select.value === input.id)) this.#hear(data, timeStamp);
      };
    }
    const names = inputs.map(({ name }) => name ?? 'a keyboard').join(', ');
    this.#say('state', inputs.length === 0 ? 'No keyboard is connected. Switch it on and connect it; it shows up here by itself.' : `Connected: ${names}.`);
  }

  #hear(data: Uint8Array, timeMs: number): void {
    const { stroke, pedal } = readMessage(data);
    if (stroke !== null) this.#level = Math.max(this.#level, stroke / FULL);
    if (pedal !== null) this.#pedal = pedal / FULL;
    this.#take?.hear(data, timeMs);
  }

  async #start(): Promise<void> {
    const record: ShelvedTake = { key: crypto.randomUUID(), startedAt: new Date().toISOString(), ...this.#whose(), state: 'recording' };
    this.#startedMs = performance.now();
    // before anything is waited for: the first note may follow at once
    this.#take = new Take(this.#shelf, record, this.#startedMs);
    this.#show('recording');
    await this.#shelf.put(record);
  }

  async #stop(): Promise<void> {
    if (this.#take === null) return;
    await this.#take.settled();
    await this.#shelf.put({ ...this.#take.record, ...this.#whose(), state: 'stopped' });
    this.#show('stopped');
  }

  /** The take is wanted: the room gets it, now or as soon as it answers. */
  async #keep(): Promise<void> {
    const take = this.#take;
    if (take === null) return;
    const whose = this.#whose();
    if (whose.pupil === '' && whose.newPupil === '') { this.#say('state', 'Say whose recording this is, then keep it.'); return; }
    await this.#shelf.put({ ...take.record, ...whose, state: 'wanted' });
    this.#take = null;
    this.#show('idle');
    this.#say('count', 'On its way to the room.');
    this.#send(take.record.key);
  }

  async #drop(): Promise<void> {
    if (this.#take !== null) await this.#shelf.drop(this.#take.record.key);
    this.#take = null;
    this.#show('idle');
    this.#say('count', 'Nothing recorded yet.');
  }

  /** What became of a take. */
  async #told(take: ShelvedTake, outcome: Outcome | null): Promise<void> {
    await this.showShelf();
    this.#say('count', outcome === null ? 'The room does not answer. The recording is safe in this browser and is sent again by itself.' : outcome.text);
    if (outcome?.ok === true && outcome.href !== null && take.key === this.#after) window.location.assign(outcome.href);
  }

  /** Whose it is, and what; of a take from an earlier page, what was chosen then where nothing is chosen now. */
  #whose(before?: ShelvedTake): Pick<ShelvedTake, 'pupil' | 'newPupil' | 'piece'> {
    const value = (name: string): string => {
      const field = this.#form.elements.namedItem(name);
      return field instanceof HTMLSelectElement || field instanceof HTMLInputElement ? field.value.trim() : '';
    };
    const now = { pupil: value('pupil'), newPupil: value('newPupil'), piece: value('piece') };
    return before !== undefined && now.pupil === '' && now.newPupil === '' ? { pupil: before.pupil, newPupil: before.newPupil, piece: before.piece } : now;
  }

  /** Which buttons are there. */
  #show(state: 'idle' | 'recording' | 'stopped'): void {
    this.#part('start').hidden = state !== 'idle';
    this.#part('stop').hidden = state !== 'recording';
    this.#part('keep').hidden = state !== 'stopped';
    this.#part('drop').hidden = state !== 'stopped';
    this.#part(state === 'recording' ? 'stop' : state === 'stopped' ? 'keep' : 'start').focus();
  }

  /** Level, pedal and count, sixty times a second. */
  #draw(): void {
    this.#level = Math.max(0, this.#level - FALLS);
    this.#part('level').style.transform = `scaleX(${this.#level.toFixed(3)})`;
    this.#part('pedal').style.transform = `scaleX(${this.#pedal.toFixed(3)})`;
    if (this.#take !== null && this.#part('stop').hidden === false) {
      const seconds = Math.floor((performance.now() - this.#startedMs) / 1000);
      this.#say('count', `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, '0')}, ${this.#take.notes} notes`);
    }
    window.requestAnimationFrame(() => this.#draw());
  }

  #on(name: string, work: () => void): void {
    this.#part(name).addEventListener('click', work);
  }

  #say(name: string, text: string): void {
    const place = this.#part(name);
    if (place.textContent !== text) place.textContent = text;
  }

  /** A part of the page by its name. @throws TypeError where it is not there */
  #part(name: string): HTMLElement {
    const part = this.#main.querySelector<HTMLElement>(`[data-recorder-${name}]`);
    if (part === null) throw new TypeError(`the page has no ${name}`);
    return part;
  }
}

/** A button that does something. */
function button(text: string, work: () => void): HTMLButtonElement {
  const made = document.createElement('button');
  made.type = 'button';
  made.textContent = text;
  made.addEventListener('click', work);
  return made;
}
