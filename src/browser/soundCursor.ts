/** Where the sound is on the page: a line through system and lanes, the bar on the ribbon and in the chart. */
import type { ShownMoment } from '../sound/index.js';

/** Fired on the document with the bar that sounds; "" when none does any more. */
export const SOUNDING_BAR = 'soundingbar';

/** A moment and its place on the page. */
interface Spot {
  readonly moment: ShownMoment;
  readonly sheet: HTMLElement;
  /** px from the left edge of the sheet. */
  readonly x: number;
}

/** The cursor of one page. */
export class SoundCursor {
  readonly #moments: readonly ShownMoment[];
  readonly #line = document.createElement('div');
  #spots: readonly Spot[] = [];
  #bar = '';

  /** @param moments in order of time */
  constructor(moments: readonly ShownMoment[]) {
    this.#moments = moments;
    this.#line.className = 'listen-cursor';
    this.measure();
  }

  /** Finds every moment on the page as it is engraved now. */
  measure(): void {
    this.#spots = this.#moments.flatMap((moment) => spotOf(moment));
  }

  /** Shows a moment; null takes the cursor away. */
  show(timeS: number | null): void {
    const place = timeS === null ? -1 : lastAtOrBefore(this.#spots, timeS);
    const spot = this.#spots[place];
    if (timeS === null || spot === undefined) {
      if (timeS === null) this.#line.remove();
      if (timeS === null) this.#tell('');
      return;
    }
    if (this.#line.parentElement !== spot.sheet) {
      spot.sheet.append(this.#line);
      keepInSight(spot.sheet);
    }
    this.#line.style.transform = `translateX(${between(spot, this.#spots[place + 1], timeS).toFixed(1)}px)`;
    this.#tell(String(spot.moment.barIndex));
  }

  /** Marks the bar on the ribbon, and tells who else wants to know. */
  #tell(bar: string): void {
    if (bar === this.#bar) return;
    this.#bar = bar;
    for (const column of document.querySelectorAll<SVGElement>('.ribbon .column')) column.classList.toggle('sounding', bar !== '' && column.dataset['bar'] === bar);
    document.dispatchEvent(new CustomEvent(SOUNDING_BAR, { detail: bar }));
  }
}

/** True where somebody has asked for less movement. */
function isStill(): boolean {
  return window.matchMedia('(prefers-reduced-motion: reduce)').matches;
}

/** Where the cursor is between two moments of one system; at the first of them where less movement is asked for. */
function between(from: Spot, to: Spot | undefined, timeS: number): number {
  const goesOn = to !== undefined && to.sheet === from.sheet && to.x > from.x && to.moment.stretch === from.moment.stretch;
  if (!goesOn || isStill()) return from.x;
  const share = (timeS - from.moment.timeS) / (to.moment.timeS - from.moment.timeS);
  return from.x + Math.min(1, share) * (to.x - from.x);
}

/** Place of a moment on the page: at its first note-head that is there, else at the left edge of its bar. */
function spotOf(moment: ShownMoment): readonly Spot[] {
  const heads = moment.notes.flatMap((id) => document.querySelector<SVGElement>(`g.note[data-note="${CSS.escape(id)}"]`) ?? []);
  const [element = document.querySelector<SVGElement>(`.bar-target[data-bar="${moment.barIndex}"] rect`)] = heads;
  const sheet = element?.closest<HTMLElement>('.sheet');
  if (!element || !sheet) return [];
  const box = element.getBoundingClientRect();
  const x = (heads.length > 0 ? box.left + box.width / 2 : box.left) - sheet.getBoundingClientRect().left + sheet.scrollLeft;
  return [{ moment, sheet, x }];
}

/** By halving. */
function lastAtOrBefore(spots: readonly Spot[], timeS: number): number {
  let [low, high] = [0, spots.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((spots[middle]?.moment.timeS ?? Infinity) > timeS) high = middle;
    else low = middle + 1;
  }
  return Math.max(0, low - 1);
}

/** Room left between the strip and a system that is brought into sight, px. */
const ABOVE_PX = 12;

/** Brings a system into the window where it is not: under the strip at its head. */
function keepInSight(sheet: HTMLElement): void {
  const { top, bottom } = sheet.getBoundingClientRect();
  const strip = document.querySelector('[data-listen]')?.getBoundingClientRect().height ?? 0;
  if (top >= strip && bottom <= window.innerHeight) return;
  window.scrollBy({ top: top - strip - ABOVE_PX, behavior: isStill() ? 'auto' : 'smooth' });
}
