/** The parts of the strip: reading what is chosen on them, and showing what is heard. */
import type { ShownBar } from '../sound/index.js';
import type { Bounds } from './soundBounds.js';
import type { Heard, SoundingPage } from './soundTypes.js';

/** Name of a bar as it was gone through: "bar 5", "bar 5, second try". */
export function nameOfBar(bars: readonly ShownBar[], { barIndex, attempt }: ShownBar): string {
  const name = document.querySelector(`.bar-target[data-bar="${barIndex}"]`)?.getAttribute('aria-label') ?? '';
  const tries = bars.filter((other) => other.barIndex === barIndex).length;
  return tries > 1 ? `${name}, try ${attempt}` : name;
}

/** The strip's parts, found once. */
export class StripParts {
  readonly #strip: HTMLElement;

  /** @param strip the whole of it */
  constructor(strip: HTMLElement) {
    this.#strip = strip;
  }

  /** Fills the lists. */
  fill({ versions, bars, others }: SoundingPage): void {
    const select = this.#select('version');
    for (const { name, words } of versions) select.append(new Option(words, name));
    for (const list of [this.#select('from'), this.#select('to')]) for (const [i, bar] of bars.entries()) list.append(new Option(nameOfBar(bars, bar), String(i)));
    const other = this.#select('other');
    for (const { id, when } of others) other.append(new Option(when, String(id)));
    this.#one('other-box').hidden = others.length === 0;
  }

  /** Which bars are chosen. */
  range(): Bounds {
    const [from, to] = [this.#select('from').value, this.#select('to').value];
    return { from: from === '' ? null : Number(from), to: to === '' ? null : Number(to) };
  }

  /** Shows which bars are heard. */
  showRange({ from, to }: Bounds): void {
    this.#select('from').value = from === null ? '' : String(from);
    this.#select('to').value = to === null ? '' : String(to);
  }

  /** Hears of another choice of bars. */
  onRange(tell: () => void): void {
    for (const name of ['from', 'to']) this.#select(name).addEventListener('change', tell);
  }

  /** Hears which version is wanted. */
  onVersion(tell: (heard: Heard) => void): void {
    const select = this.#select('version');
    select.addEventListener('change', () => tell(isHeard(select.value) ? select.value : 'played'));
    this.#one('played').addEventListener('click', () => tell('played'));
  }

  /** Shows which version is heard. */
  showVersion(heard: Heard): void {
    const select = this.#select('version');
    if (heard !== 'played') select.value = heard;
    select.classList.toggle('chosen', heard !== 'played');
    this.#one('played').setAttribute('aria-pressed', String(heard === 'played'));
  }

  /** Speed, 1 as played. */
  speed(): number {
    return this.#input('speed').valueAsNumber / 100;
  }

  /** Hears of another speed, and shows it. */
  onSpeed(tell: (speed: number) => void): void {
    this.#input('speed').addEventListener('input', () => {
      this.#one('speed-told').textContent = `${this.#input('speed').value} %`;
      tell(this.speed());
    });
  }

  /** Volume, 0-1: the way of the hand as the ear hears it. */
  volume(): number {
    return (this.#input('volume').valueAsNumber / 100) ** 2 / 0.64;
  }

  /** Hears of another volume. */
  onVolume(tell: (volume: number) => void): void {
    this.#input('volume').addEventListener('input', () => tell(this.volume()));
  }

  /** True where it is to begin again at its end. */
  loops(): boolean {
    return this.#input('loop').checked;
  }

  /** True where a bar is to be counted before it begins. */
  counts(): boolean {
    return this.#input('count').checked;
  }

  /** True where a tap on the score plays. */
  taps(): boolean {
    return this.#input('tap').checked;
  }

  /** Shows whether something is heard. */
  showPlaying(playing: boolean): void {
    this.#one('play').textContent = playing ? 'stop' : 'play';
    this.#strip.classList.toggle('sounding', playing);
    if (!playing) this.showWhere('');
  }

  /** Shows which bar is heard. */
  showWhere(text: string): void {
    const place = this.#one('where');
    if (place.textContent !== text) place.textContent = text;
  }

  /** Says something; a screen reader says it too. */
  say(text: string): void {
    const place = this.#one('words');
    if (place.textContent !== text) place.textContent = text;
  }

  /** One part by its name. @throws TypeError where the page lacks it */
  #one(name: string): HTMLElement {
    const part = this.#strip.querySelector<HTMLElement>(`[data-listen-${name}]`);
    if (part === null) throw new TypeError(`the strip has no ${name}`);
    return part;
  }

  #select(name: string): HTMLSelectElement {
    const part = this.#one(name);
    if (!(part instanceof HTMLSelectElement)) throw new TypeError(`${name} is no list`);
    return part;
  }

  #input(name: string): HTMLInputElement {
    const part = this.#one(name);
    if (!(part instanceof HTMLInputElement)) throw new TypeError(`${name} is no field`);
    return part;
  }
}

/** True for the name of a version. */
function isHeard(value: string): value is Heard {
  return value !== '';
}
