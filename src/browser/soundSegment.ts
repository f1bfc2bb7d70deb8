/** One run of voices on the context's time: from some moment to another, ended as a whole, so that no tone can be left over. */
import { playRelease, playVoice, type Placement, type Playing } from './soundRender.js';
import type { Releases, Tones } from './soundSamples.js';
import { overAt, type Voice } from './soundVoices.js';

/** A run fades within this time when it is ended, seconds: short enough for "at once", long enough not to click. */
export const FADE_S = 0.03;

/** What a run is made of. */
export interface SegmentParts {
  readonly context: BaseAudioContext;
  readonly tones: Tones;
  /** Sounds of keys that come up; none where left out. */
  readonly releases?: Releases | undefined;
  readonly out: AudioNode;
  readonly voices: readonly Voice[];
  readonly placement: Placement;
  /** The voices' own time at which the run ends, exclusive; infinite for all of them. */
  readonly untilS: number;
  /** Gain of the whole run, 1 for as it is. */
  readonly gain: number;
}

/** A run under way. */
export interface Segment {
  readonly placement: Placement;
  /** Context time at which it ends; infinite where nothing ends it. */
  readonly endsAtS: number;
  /** Puts everything that begins before a context time on its place. */
  advance(horizonS: number): void;
  /** Fades out from a context time on and ends every tone of it. */
  end(atS: number): void;
  /** Tones that are under way or placed, at a context time. */
  sounding(nowS: number): number;
}

/** Begins a run: tones that sound already at its first moment are joined. */
export function startSegment({ context, tones, releases, out, voices, placement, untilS, gain }: SegmentParts): Segment {
  const gate = context.createGain();
  gate.gain.value = gain;
  gate.connect(out);
  let playing: Playing[] = [];
  let next = 0;
  let ended = false;
  const put = (voice: Voice): void => {
    const one = playVoice(context, { tones, out: gate, voice, placement });
    const up = releases === undefined || voice.releaseS >= untilS ? null : playRelease(context, { releases, out: gate, voice, placement });
    playing.push(...[one, up].filter((each) => each !== null));
  };
  for (let voice = voices[next]; voice !== undefined && voice.startS < placement.fromS; voice = voices[next]) {
    if (overAt(voice.course) > placement.fromS) put(voice);
    next += 1;
  }
  return {
    placement,
    endsAtS: placement.atS + untilS - placement.fromS,
    advance: (horizonS) => {
      if (ended) return;
      playing = playing.filter(({ endS }) => endS > context.currentTime);
      for (let voice = voices[next]; voice !== undefined && voice.startS < untilS && placement.atS + voice.startS - placement.fromS < horizonS; voice = voices[next]) {
        put(voice);
        next += 1;
      }
    },
    end: (atS) => {
      if (ended) return;
      ended = true;
      gate.gain.setValueAtTime(gain, atS);
      gate.gain.linearRampToValueAtTime(0, atS + FADE_S);
      for (const one of playing) one.stop(atS + FADE_S);
    },
    sounding: (nowS) => playing.filter(({ endS }) => endS > nowS).length,
  };
}
