/**
 * Plays versions of a recording: begins anywhere, loops, changes version and speed while it sounds. All places are moments of the
 * recording as it was played; each version's clock tells when they come in it.
 */
import { alongPoints } from '../base/index.js';
import { fittingGain, type Outlet } from './soundRender.js';
import type { Releases, Tones } from './soundSamples.js';
import { FADE_S, startSegment, type Segment } from './soundSegment.js';
import type { Sounding } from './soundTypes.js';
import { voicesOf, type Voice } from './soundVoices.js';

/** How often tones are put in place, ms, and how far ahead of their time, seconds: measured on a machine with ten times the work it can do, calls come up to 0.25 s late. */
const EVERY_MS = 25;
const AHEAD_S = 0.4;

/** Browsers call a page in the background once a second: then further ahead. */
const AHEAD_HIDDEN_S = 2.5;

/** From a tap to the first tone, seconds: time to put the tones in place. */
const BEGIN_S = 0.03;

/** After its last event a recording rings on for so long, seconds. */
const RING_S = 2.5;

/** Clicks of a count-in: pitch of the first and the others, Hz, length, seconds, and loudness, 0-1. */
const CLICK = { firstHz: 1320, otherHz: 880, lengthS: 0.04, gain: 0.25 } as const;

/** What is played. */
export interface Run {
  /** Moments as played; `untilS` null for the end. */
  readonly fromS: number;
  readonly untilS: number | null;
  readonly loop: boolean;
  /** Beats before it begins, and their length as played, seconds; 0 for none. */
  readonly countIn: { readonly beats: number; readonly beatS: number };
}

/** A version made ready. */
interface Material {
  readonly sounding: Sounding;
  readonly toVersion: (playedS: number) => number;
  readonly toPlayed: (versionS: number) => number;
  readonly gain: number;
}

/** What a player plays on. */
export interface Stage {
  readonly context: AudioContext;
  readonly tones: Tones;
  /** Sounds of keys that come up; none where left out. */
  readonly releases?: Releases;
  readonly outlet: Outlet;
  /** Hears when the playing has ended by itself (true) or was stopped. */
  readonly onStop: (atEnd: boolean) => void;
}

/** The player of one page. */
export class SoundPlayer {
  readonly #stage: Stage;
  #material: Material | null = null;
  #run: Run | null = null;
  #segments: Segment[] = [];
  #speed = 1;
  #voices: { readonly of: Sounding; readonly speed: number; readonly voices: readonly Voice[] } | null = null;
  #timer = 0;
  #fit: number | null = null;

  /** @param stage where it sounds */
  constructor(stage: Stage) {
    this.#stage = stage;
  }

  /** True while something is being played. */
  get playing(): boolean {
    return this.#run !== null;
  }

  /** Tones under way or in place; for tests. */
  get sounding(): number {
    return this.#segments.reduce((sum, segment) => sum + segment.sounding(this.#stage.context.currentTime), 0);
  }

  /** Chooses the version, from this very moment on where something is being played. */
  choose(sounding: Sounding): void {
    const points = sounding.clock.map(({ playedS, versionS }) => ({ x: playedS, y: versionS }));
    const at = this.position();
    // all versions are heard at the level that suits the first one chosen
    this.#fit ??= fittingGain(voicesOf(sounding.playback, 1));
    this.#material = {
      sounding, toVersion: alongPoints(points), toPlayed: alongPoints(points.map(({ x, y }) => ({ x: y, y: x }))), gain: this.#fit * 10 ** (sounding.gainDb / 20),
    };
    if (at !== null) this.#restart(at);
  }

  /** Sets the speed, 1 as played, from this very moment on. */
  setSpeed(speed: number): void {
    if (!(speed > 0)) throw new RangeError(`nothing can be played at speed ${speed}`);
    const at = this.position();
    this.#speed = speed;
    if (at !== null) this.#restart(at);
  }

  /** Plays; what was being played ends. */
  play(run: Run): void {
    this.#endAll();
    this.#run = run;
    const { context } = this.#stage;
    const beatS = run.countIn.beatS / this.#speed;
    const atS = context.currentTime + BEGIN_S;
    for (let beat = 0; beat < run.countIn.beats; beat += 1) this.#click(atS + beat * beatS, beat === 0);
    this.#open(run.fromS, atS + run.countIn.beats * beatS);
    this.#timer = window.setInterval(() => this.#advance(), EVERY_MS);
    this.#advance();
  }

  /** Stops at once. */
  stop(): void {
    this.#stop(false);
  }

  /** Stops, and says whether that was its end. */
  #stop(atEnd: boolean): void {
    if (this.#run === null) return;
    this.#run = null;
    this.#endAll();
    this.#stage.onStop(atEnd);
  }

  /** The moment as played that sounds now; null while nothing is played. */
  position(): number | null {
    const now = this.#stage.context.currentTime;
    const segment = this.#segments.findLast(({ placement }) => placement.atS <= now) ?? this.#segments[0];
    if (this.#run === null || segment === undefined || this.#material === null) return null;
    const { fromS, atS } = segment.placement;
    return this.#material.toPlayed((fromS + Math.max(0, now - atS)) * this.#speed);
  }

  /** Goes on elsewhere, or in another version, without a count. */
  #restart(atPlayedS: number): void {
    const now = this.#stage.context.currentTime;
    for (const segment of this.#segments) segment.end(now);
    this.#segments = [];
    this.#open(atPlayedS, now);
    this.#advance();
  }

  /** Begins a run of voices at a context time. */
  #open(fromPlayedS: number, atS: number): void {
    if (this.#material === null || this.#run === null) return;
    const { toVersion, gain, sounding: { playback } } = this.#material;
    const { context, tones, releases, outlet } = this.#stage;
    const endS = this.#run.untilS === null ? playback.durationS + RING_S : toVersion(this.#run.untilS);
    const fromS = toVersion(fromPlayedS) / this.#speed;
    this.#segments.push(startSegment({ context, tones, releases, out: outlet.input, voices: this.#voicesNow(), placement: { fromS, atS }, untilS: Math.max(fromS, endS / this.#speed), gain }));
  }

  /** The voices of the version at the speed chosen, kept until one of the two changes. */
  #voicesNow(): readonly Voice[] {
    const of = this.#material?.sounding;
    if (of === undefined) return [];
    if (this.#voices?.of !== of || this.#voices.speed !== this.#speed) this.#voices = { of, speed: this.#speed, voices: voicesOf(of.playback, this.#speed) };
    return this.#voices.voices;
  }

  /** Puts in place what begins soon; at the end of a run begins it anew or stops. */
  #advance(): void {
    const { context } = this.#stage;
    const horizonS = context.currentTime + (document.hidden ? AHEAD_HIDDEN_S : AHEAD_S);
    const last = this.#segments.at(-1);
    if (last === undefined || this.#run === null) return;
    last.advance(horizonS);
    if (this.#run.loop && last.endsAtS < horizonS) {
      last.end(last.endsAtS);
      this.#open(this.#run.fromS, last.endsAtS);
      this.#segments.at(-1)?.advance(horizonS);
    } else if (context.currentTime > last.endsAtS) this.#stop(true);
    this.#segments = this.#segments.filter((segment) => segment === this.#segments.at(-1) || segment.endsAtS > context.currentTime - FADE_S);
  }

  /** Ends everything that sounds or is in place. */
  #endAll(): void {
    window.clearInterval(this.#timer);
    for (const segment of this.#segments) segment.end(this.#stage.context.currentTime);
    this.#segments = [];
  }

  /** One click of a count-in, on the way out of its own that `stop` cannot reach: it is over in a moment. */
  #click(atS: number, first: boolean): void {
    const { context, outlet } = this.#stage;
    const sound = context.createOscillator();
    const level = context.createGain();
    sound.frequency.value = first ? CLICK.firstHz : CLICK.otherHz;
    level.gain.setValueAtTime(0, atS);
    level.gain.linearRampToValueAtTime(CLICK.gain, atS + 0.002);
    level.gain.exponentialRampToValueAtTime(0.001, atS + CLICK.lengthS);
    sound.connect(level).connect(outlet.input);
    sound.start(atS);
    sound.stop(atS + CLICK.lengthS);
  }
}
