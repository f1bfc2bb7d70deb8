/** The strip for listening: what is chosen on it, and the player, the cursor and the words that follow. */
import { lastVisit, momentsOf, type Bounds } from './soundBounds.js';
import { SoundCursor } from './soundCursor.js';
import { OtherRecording } from './soundOther.js';
import { SoundPlayer } from './soundPlayer.js';
import { makeOutlet, type Outlet } from './soundRender.js';
import { loadReleases, loadTones, type Tones } from './soundSamples.js';
import { fetchPage, fetchVersion } from './soundFetch.js';
import { nameOfBar, StripParts } from './soundStripParts.js';
import type { Heard, Sounding, SoundingPage } from './soundTypes.js';
import { SCORE_CHANGED } from './width.js';
import { openDrawer } from './openBar.js';

/** Said where sound or version cannot be fetched. */
export const NOT_TO_BE_HAD = 'The sound is not to be had: the room does not answer. Try again when it is back.';

/** What is asked for: the play button or the space bar (null), a button on the page, or only to be ready. */
export type Wish = HTMLElement | 'ready' | null;

/** The strip at work. */
export interface OpenStrip {
  /** Does what is asked for. @throws TypeError where the room does not answer */
  wish(wish: Wish): Promise<void>;
}

/**
 * Fetches what the recording holds and brings the strip to work.
 * @param context gives the page's one audio context; made with the first wish to hear something
 */
export async function openStrip(element: HTMLElement, context: () => AudioContext): Promise<OpenStrip> {
  const address = element.dataset['listen'] ?? '';
  const page = await fetchPage(address);
  return new Strip(new StripParts(element), { address, page, context });
}

/** Where everything comes from. */
interface Source {
  readonly address: string;
  readonly page: SoundingPage;
  readonly context: () => AudioContext;
}

/** A piano and a way out, once there. */
interface Ready {
  readonly player: SoundPlayer;
  readonly outlet: Outlet;
}

/** The strip of one page. */
class Strip implements OpenStrip {
  readonly #parts: StripParts;
  readonly #source: Source;
  readonly #cursor: SoundCursor;
  readonly #other: OtherRecording;
  readonly #versions = new Map<Heard, Promise<Sounding>>();
  #ready: Promise<Ready> | null = null;
  #player: SoundPlayer | null = null;
  #heard: Heard = 'played';
  #last: Heard | null = null;
  #bounds: Bounds = { from: null, to: null };
  #frame = 0;
  #sounding: Sounding;

  constructor(parts: StripParts, source: Source) {
    this.#parts = parts;
    this.#source = source;
    this.#sounding = source.page;
    this.#versions.set('played', Promise.resolve(source.page));
    this.#cursor = new SoundCursor(source.page.moments);
    this.#other = new OtherRecording(source.page);
    parts.fill(source.page);
    parts.onVersion((heard) => this.#try(this.#choose(heard)));
    parts.onRange(() => this.#setBounds(parts.range()));
    parts.onSpeed((speed) => this.#player?.setSpeed(speed));
    parts.onVolume((volume) => void this.#ready?.then(({ outlet }) => (outlet.volume.gain.value = volume)));
    document.addEventListener('keydown', (event) => this.#key(event));
    document.addEventListener('click', (event) => this.#tap(event), true);
    for (const [target, name] of [[document, SCORE_CHANGED], [window, 'resize']] as const) target.addEventListener(name, () => this.#cursor.measure());
    window.addEventListener('pagehide', () => this.#player?.stop());
  }

  async wish(wish: Wish): Promise<void> {
    if (wish === 'ready') return;
    if (wish === null && this.#player?.playing === true) this.#player.stop();
    else if (wish === null) await this.#play(this.#focusedBar() ?? this.#bounds);
    else await this.#play(lastVisit(this.#source.page.bars, wish.dataset['play'] ?? '') ?? this.#bounds);
  }

  /** Says so where the room does not answer. */
  #try(work: Promise<void>): void {
    work.catch(() => this.#parts.say(NOT_TO_BE_HAD));
  }

  /** V changes between as played and the version heard last. */
  #key(event: KeyboardEvent): void {
    if (event.ctrlKey || event.metaKey || event.altKey || (event.target instanceof HTMLElement && event.target.closest('textarea, input, select') !== null)) return;
    if (event.key === 'v' || event.key === 'V') this.#try(this.#choose(this.#heard === 'played' ? (this.#last ?? this.#source.page.versions[0]?.name ?? 'played') : 'played'));
  }

  /** The bar that the keyboard stands on, or that is open; null where bars are chosen on the strip and the hand is there. */
  #focusedBar(): Bounds | null {
    const focus = document.activeElement;
    const chosen = this.#bounds.from !== null || this.#bounds.to !== null;
    if (chosen && focus?.closest('[data-listen]')) return null;
    const focused = focus?.closest<SVGElement>('.bar-target')?.dataset['bar'] ?? openDrawer()?.dataset['bar'];
    const visit = focused === undefined ? null : lastVisit(this.#source.page.bars, focused);
    return visit === null ? null : { from: visit.from, to: this.#parts.loops() ? visit.to : null };
  }

  /** With the choice on, a tap on a note, a point or a bar plays from there. */
  #tap(event: MouseEvent): void {
    const target = event.target instanceof Element ? event.target : null;
    if (target === null || !this.#parts.taps() || target.closest('.sheet') === null) return;
    const note = target.closest<SVGElement>('[data-note]')?.dataset['note'];
    const bar = target.closest<SVGElement>('[data-bar]')?.dataset['bar'];
    const moment = note === undefined ? undefined : this.#source.page.moments.findLast(({ notes }) => notes.includes(note));
    const visit = bar === undefined ? null : lastVisit(this.#source.page.bars, bar);
    if (moment === undefined && visit === null) return;
    event.preventDefault();
    event.stopPropagation();
    this.#try(this.#play({ from: visit?.from ?? null, to: null }, moment?.timeS));
  }

  /** Shows and keeps what is to be heard. */
  #setBounds(bounds: Bounds): void {
    this.#bounds = bounds;
    this.#parts.showRange(bounds);
  }

  /** Plays some bars, from a moment of them where one is named. */
  async #play(bounds: Bounds, fromS?: number): Promise<void> {
    this.#setBounds(bounds);
    const { player } = await this.#getReady();
    player.stop();
    const { page } = this.#source;
    const moments = momentsOf(page.bars, bounds);
    const first = page.bars[bounds.from ?? 0];
    player.choose(await this.#matched());
    player.setSpeed(this.#parts.speed());
    const counted = this.#parts.counts() && first !== undefined;
    player.play({ ...moments, fromS: fromS ?? moments.fromS, loop: this.#parts.loops() && this.#other.chosen === null, countIn: counted ? { beats: first.beats, beatS: first.beatS } : { beats: 0, beatS: 0 } });
    this.#parts.showPlaying(true);
    this.#follow();
  }

  /** The version chosen, at the level of the other recording where one is to follow. */
  async #matched(): Promise<Sounding> {
    const gainDb = await this.#other.gainOf(this.#source.address);
    return { ...this.#sounding, gainDb };
  }

  /** The piano, loaded once. */
  #getReady(): Promise<Ready> {
    this.#ready ??= this.#prepare().catch((error: unknown) => {
      this.#ready = null;
      throw error;
    });
    return this.#ready;
  }

  async #prepare(): Promise<Ready> {
    const context = this.#source.context();
    const tones: Tones = await loadTones(context, (loaded, all) => this.#parts.say(loaded < all ? `The piano is coming: ${loaded} of ${all} tones` : ''));
    const outlet = makeOutlet(context);
    outlet.volume.gain.value = this.#parts.volume();
    const player = new SoundPlayer({ context, tones, releases: loadReleases(context), outlet, onStop: (atEnd) => this.#try(this.#stopped(atEnd)) });
    this.#player = player;
    return { player, outlet };
  }

  /** At its end the other recording follows, where one is chosen; else all is quiet. */
  async #stopped(atEnd: boolean): Promise<void> {
    const player = this.#player;
    if (atEnd && player !== null && this.#other.chosen !== null) {
      const goesOn = await this.#other.play(player, { bars: this.#source.page.bars, bounds: this.#bounds, say: (text) => this.#parts.say(text) });
      if (goesOn) {
        this.#follow();
        return;
      }
      if (this.#parts.loops()) return this.#play(this.#bounds);
    }
    this.#other.ended();
    this.#parts.showPlaying(false);
    this.#cursor.show(null);
  }

  /** Another version, from this moment on. */
  async #choose(heard: Heard): Promise<void> {
    const fetched = this.#versions.get(heard) ?? fetchVersion(this.#source.address, heard);
    this.#versions.set(heard, fetched);
    fetched.catch(() => this.#versions.delete(heard));
    this.#heard = heard;
    if (heard !== 'played') this.#last = heard;
    this.#parts.showVersion(heard);
    const sounding = await fetched;
    if (this.#heard !== heard) return;
    this.#sounding = sounding;
    this.#parts.say(heard !== 'played' && sounding.changes.length === 0 ? 'Nothing would change.' : '');
    // while the other recording is heard, the choice waits for this one's turn
    if (!this.#other.sounding) this.#player?.choose(await this.#matched());
  }

  /** The cursor and the words beside the sound, as long as there is any; one run of frames at a time. */
  #follow(): void {
    window.cancelAnimationFrame(this.#frame);
    const player = this.#player;
    if (player?.playing !== true) return;
    const now = player.position();
    const own = !this.#other.sounding;
    const { bars } = this.#source.page;
    if (now !== null && own) {
      this.#cursor.show(now);
      const at = bars.findLast(({ startS }) => startS <= now + 0.05);
      this.#parts.showWhere(at === undefined ? '' : nameOfBar(bars, at));
      const near = this.#sounding.changes.findLast(({ startS }) => startS <= now + 0.5 && startS > now - TOLD_S);
      if (this.#heard !== 'played') this.#parts.say(near?.text ?? '');
    } else this.#cursor.show(now === null ? null : this.#other.placeIn(now, this.#source.page));
    this.#frame = window.requestAnimationFrame(() => this.#follow());
  }
}

/** What a change does is told for so long after its moment, seconds. */
const TOLD_S = 4;
