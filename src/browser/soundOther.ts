/** Another recording of the piece, heard after this one: the same bars, at the same level. */
import { lastVisit, momentsOf, type Bounds } from './soundBounds.js';
import { fetchPage } from './soundFetch.js';
import type { SoundPlayer } from './soundPlayer.js';
import type { SoundingPage } from './soundTypes.js';
import type { ShownBar } from '../sound/index.js';

/** What is heard here, to be heard there. */
interface Asked {
  readonly bars: readonly ShownBar[];
  readonly bounds: Bounds;
  readonly say: (text: string) => void;
}

/** The other recording, once one is chosen. */
export class OtherRecording {
  readonly #select = document.querySelector<HTMLSelectElement>('[data-listen-other]');
  readonly #others: SoundingPage['others'];
  #pages = new Map<number, Promise<SoundingPage>>();
  #now: SoundingPage | null = null;

  /** @param page the recording of this page */
  constructor({ others }: SoundingPage) {
    this.#others = others;
  }

  /** The one that is chosen to follow; null for none. */
  get chosen(): SoundingPage['others'][number] | null {
    return this.#others.find(({ id }) => String(id) === this.#select?.value) ?? null;
  }

  /** True while it is heard. */
  get sounding(): boolean {
    return this.#now !== null;
  }

  /** By how much this page's recording is turned down to match it, dB; 0 where none is chosen. */
  async gainOf(address: string): Promise<number> {
    const { chosen } = this;
    return chosen === null ? 0 : (await fetchPage(address, chosen.id)).gainDb;
  }

  /** Plays the same bars of it; false where it has just been heard, or does not have them. */
  async play(player: SoundPlayer, { bars, bounds, say }: Asked): Promise<boolean> {
    const { chosen } = this;
    if (chosen === null || this.#now !== null) {
      this.#now = null;
      return false;
    }
    const page = await this.#pageOf(chosen);
    const [first, last] = [bars[bounds.from ?? 0], bars[bounds.to ?? bars.length - 1]];
    const there = first === undefined || last === undefined ? null : lastVisit(page.bars, `${first.barIndex}-${last.barIndex}`);
    if (there === null) {
      say('The other recording does not have these bars.');
      return false;
    }
    this.#now = page;
    say(`Now the recording of ${chosen.when}`);
    player.choose(page);
    player.play({ ...momentsOf(page.bars, bounds.from === null && bounds.to === null ? bounds : there), loop: false, countIn: { beats: 0, beatS: 0 } });
    return true;
  }

  /** All is quiet. */
  ended(): void {
    this.#now = null;
  }

  /** The moment of this page's recording that stands at the same written place; null where it has none. */
  placeIn(timeS: number, page: SoundingPage): number | null {
    const here = this.#now?.moments.findLast((moment) => moment.timeS <= timeS);
    return page.moments.findLast(({ notes }) => notes[0] !== undefined && here?.notes.includes(notes[0]) === true)?.timeS ?? null;
  }

  /** The other one's page, matched in level with this one. */
  #pageOf({ id, address }: SoundingPage['others'][number]): Promise<SoundingPage> {
    const beside = Number(/\/(\d+)$/.exec(window.location.pathname)?.[1]);
    const known = this.#pages.get(id) ?? fetchPage(`${address}/sound`, beside);
    this.#pages.set(id, known);
    return known;
  }
}
