/** Voices on an audio context, live or offline: the same functions do both. */
import type { Releases, Tones } from './soundSamples.js';
import { dbAt, overAt, type Voice } from './soundVoices.js';

/** The tones were struck at about this velocity of 127, told as level, dB: what is louder is turned up, what is softer down. */
const RECORDED_DB = -6.9;

/** A tone rises within this time before its strike, seconds: too short to hear, long enough not to click. */
const RISE_S = 0.002;

/** A tone that is joined while it sounds rises within this time, seconds. */
const JOIN_S = 0.02;

/** Softer than this, dB, a tone is not joined any more. */
const INAUDIBLE_DB = -50;

/** Soft strokes are darker: one octave less of the partials for so many dB under the recorded level; with the soft pedal more, and softer by so many dB. Our own choice, by ear of the trade. */
const DARKER_DB = 12;
const BRIGHTEST_HZ = 16_000;
const SOFT_PEDAL = { octaves: 0.7, db: 4 } as const;

/** Shape of the last stage: straight up to here, then bent so that 1 is never reached. */
const STRAIGHT_TO = 0.7;
const SHAPE_POINTS = 2049;

/** Where a stretch of voices is put on the context's time. */
export interface Placement {
  /** Moment of the voices' own time, and the context's time at which it sounds. */
  readonly fromS: number;
  readonly atS: number;
}

/** The way out: volume, then a last stage that cannot clip. */
export interface Outlet {
  readonly input: AudioNode;
  readonly volume: GainNode;
}

/** The way out of a context. */
export function makeOutlet(context: BaseAudioContext): Outlet {
  const volume = context.createGain();
  const last = context.createWaveShaper();
  last.curve = Float32Array.from({ length: SHAPE_POINTS }, (_, i) => bent(4 * (i / (SHAPE_POINTS - 1) - 0.5)));
  // the curve takes -1 to 1: what comes in at up to 2 is halved for it
  const half = context.createGain();
  half.gain.value = 0.5;
  volume.connect(half).connect(last).connect(context.destination);
  return { input: volume, volume };
}

/** The same up to `STRAIGHT_TO`, then ever less, under 1. */
function bent(level: number): number {
  const size = Math.abs(level);
  if (size <= STRAIGHT_TO) return level;
  const room = 1 - STRAIGHT_TO;
  return Math.sign(level) * (STRAIGHT_TO + room * Math.tanh((size - STRAIGHT_TO) / room) * 0.995);
}

/** Volume at which the loudest moment of these voices fills what there is, and no more than half as loud again as recorded. */
export function fittingGain(voices: readonly Voice[]): number {
  const strokes = voices.map(({ startS, levelDb }) => ({ startS, power: (TONE_HEIGHT * gainOf(levelDb)) ** 2 }));
  let [most, sum, from] = [0, 0, 0];
  for (const { startS, power } of strokes) {
    sum += power;
    for (let first = strokes[from]; first !== undefined && first.startS < startS - CROWDED_S; first = strokes[from]) {
      sum -= first.power;
      from += 1;
    }
    most = Math.max(most, sum);
  }
  return most === 0 ? 1 : Math.min(MOST_GAIN, STRAIGHT_TO / (PEAK_TO_RMS * Math.sqrt(most)));
}

/** Height of a recorded tone, of 1: between 0.45 in the bass and 0.2 in the treble. */
const TONE_HEIGHT = 0.35;

/** Quiet playing stays quiet: no more than this over the recorded level. */
const MOST_GAIN = 1.5;

/** Strokes within this time add up, seconds; and how far their peaks stand over the sum of their powers, at most. */
const CROWDED_S = 0.6;
const PEAK_TO_RMS = 1.6;

/** Gain of a stroke over the recorded tone. */
function gainOf(levelDb: number): number {
  return 10 ** ((levelDb - RECORDED_DB) / 20);
}

/** A voice that is under way. */
export interface Playing {
  /** Context time at which it is over. */
  readonly endS: number;
  /** Ends it at a context time. */
  readonly stop: (atS: number) => void;
}

/**
 * Puts one voice on the context's time. One that has begun before the placement's moment is joined where it is by then.
 * @returns null where nothing of it is left to hear
 */
export function playVoice(context: BaseAudioContext, { tones, out, voice, placement: { fromS, atS } }: { readonly tones: Tones; readonly out: AudioNode; readonly voice: Voice; readonly placement: Placement }): Playing | null {
  const { buffer, pitch, strikeS } = tones(voice.pitch);
  const rate = 2 ** ((voice.pitch - pitch) / 12);
  const joined = Math.max(0, fromS - voice.startS);
  const lengthS = (buffer.duration - strikeS) / rate;
  const endS = Math.min(overAt(voice.course), voice.startS + lengthS);
  if (joined >= lengthS || endS <= fromS || dbAt(voice.course, fromS) < INAUDIBLE_DB) return null;
  const when = (timeS: number): number => atS + timeS - fromS;
  const rise = joined > 0 ? 0 : Math.min(RISE_S, strikeS / rate);
  const source = context.createBufferSource();
  source.buffer = buffer;
  source.playbackRate.value = rate;
  const level = context.createGain();
  shapeLevel(level.gain, { voice, fromS: fromS + (joined > 0 ? 0 : voice.startS - fromS), when, rise: joined > 0 ? -JOIN_S : rise, endS });
  darkened(context, source, voice).connect(level).connect(out);
  const startAt = Math.max(0, when(Math.max(voice.startS, fromS)) - rise);
  source.start(startAt, strikeS - rise * rate + joined * rate);
  source.stop(when(endS) + RISE_S);
  source.onended = () => level.disconnect();
  return { endS: when(endS) + RISE_S, stop: (stopS) => source.stop(Math.min(stopS, when(endS) + RISE_S)) };
}

/** How far the knock of a key that comes up stands under a stroke of the recorded level, dB. Our own choice: heard in silence, not over music. */
const RELEASE_DB = -38;

/** Puts the sound of a key's coming up on the context's time; null where it is before the placement's moment, or is not here. */
export function playRelease(context: BaseAudioContext, { releases, out, voice, placement: { fromS, atS } }: { readonly releases: Releases; readonly out: AudioNode; readonly voice: Voice; readonly placement: Placement }): Playing | null {
  const sound = voice.releaseS < fromS ? null : releases(voice.pitch);
  if (sound === null || sound.height === 0) return null;
  const source = context.createBufferSource();
  source.buffer = sound.buffer;
  const level = context.createGain();
  level.gain.value = (TONE_HEIGHT / sound.height) * 10 ** (RELEASE_DB / 20);
  source.connect(level).connect(out);
  const startS = atS + voice.releaseS - fromS;
  source.start(startS);
  source.onended = () => level.disconnect();
  return { endS: startS + sound.buffer.duration, stop: (stopS) => source.stop(stopS) };
}

/** How a voice's gain runs. */
interface LevelCourse {
  readonly voice: Voice;
  /** First moment that is heard. */
  readonly fromS: number;
  readonly when: (timeS: number) => number;
  /** Time of the rise: before the strike, or negative after the joining. */
  readonly rise: number;
  readonly endS: number;
}

/** The stroke's level, the dampers along their course, silence at the end. */
function shapeLevel(gain: AudioParam, { voice, fromS, when, rise, endS }: LevelCourse): void {
  const full = gainOf(voice.levelDb - SOFT_PEDAL.db * voice.soft);
  const at = (timeS: number): number => full * 10 ** (dbAt(voice.course, timeS) / 20);
  const risen = fromS + Math.max(0, -rise);
  gain.setValueAtTime(0, Math.max(0, when(fromS) - Math.max(0, rise)));
  gain.linearRampToValueAtTime(at(risen), when(risen));
  let last = risen;
  for (const { timeS } of voice.course) {
    if (timeS <= risen || timeS > endS) continue;
    // a straight line in decibels is an exponential one in gain
    gain.exponentialRampToValueAtTime(at(timeS), when(timeS));
    last = timeS;
  }
  if (endS > last) gain.setValueAtTime(at(last), when(Math.max(last, endS - RISE_S)));
  gain.linearRampToValueAtTime(0, when(endS) + RISE_S);
}

/** Softer strokes have fewer partials. */
function darkened(context: BaseAudioContext, source: AudioNode, { levelDb, soft, pitch }: Voice): AudioNode {
  const octaves = Math.max(0, (RECORDED_DB - levelDb) / DARKER_DB) + SOFT_PEDAL.octaves * soft;
  if (octaves < 0.05) return source;
  const filter = context.createBiquadFilter();
  filter.type = 'lowpass';
  // never below the second partial
  filter.frequency.value = Math.max(2 * 440 * 2 ** ((pitch - 69) / 12), BRIGHTEST_HZ * 2 ** -(octaves + 0.5));
  filter.Q.value = 0;
  source.connect(filter);
  return filter;
}
