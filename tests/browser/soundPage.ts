/** Runs inside the test browser: everything that sounds, under names that a test can call. */
import { makeOutlet, fittingGain } from '../../src/browser/soundRender.js';
import { loadReleases, loadTones, type Releases, type Tones } from '../../src/browser/soundSamples.js';
import { startSegment } from '../../src/browser/soundSegment.js';
import { SoundPlayer } from '../../src/browser/soundPlayer.js';
import { fetchVersion } from '../../src/browser/soundFetch.js';
import type { Sounding } from '../../src/browser/soundTypes.js';
import { voicesOf } from '../../src/browser/soundVoices.js';
import type { Playback } from '../../src/sound/index.js';

const RATE = 44_100;

/** The piano, loaded once a page. */
const piano: { tones?: Promise<Tones>; releases?: Releases } = {};

/** What a rendering is made of. */
interface Rendering {
  readonly playback: Playback;
  readonly speed?: number;
  readonly fromS?: number;
  readonly lengthS: number;
  /** Gain; what the player would take where left out. */
  readonly gain?: number;
  /** Only the tones that begin before this moment. */
  readonly before?: number;
  /** True to hear keys come up, too. */
  readonly keysUp?: boolean;
}

/** The same voices, segment and outlet as the player's, put on an offline context at once. */
async function render({ playback, speed = 1, fromS = 0, lengthS, gain, before = Infinity, keysUp = false }: Rendering): Promise<Float32Array> {
  const context = new OfflineAudioContext(1, Math.ceil(lengthS * RATE), RATE);
  piano.tones ??= loadTones(context, () => undefined);
  const voices = voicesOf(playback, speed);
  const segment = startSegment({
    context, tones: await piano.tones, ...(keysUp ? { releases: await releasesHere(context) } : {}), out: makeOutlet(context).input, voices: voices.filter(({ startS }) => startS < before), placement: { fromS, atS: 0.01 }, untilS: Infinity, gain: gain ?? fittingGain(voices),
  });
  segment.advance(Infinity);
  return (await context.startRendering()).getChannelData(0);
}

/** Sounds of keys that come up, once that of middle C is here. */
async function releasesHere(context: BaseAudioContext): Promise<Releases> {
  const releases = (piano.releases ??= loadReleases(context));
  while (releases(60) === null) await new Promise((resolve) => setTimeout(resolve, 20));
  return releases;
}

/** Root mean square of a stretch, dB under full. */
function levelDb(samples: Float32Array, fromS: number, toS: number): number {
  const part = samples.slice(Math.round(fromS * RATE), Math.round(toS * RATE));
  return 10 * Math.log10(part.reduce((sum, value) => sum + value * value, 1e-20) / part.length);
}

/** When sound first reaches a tenth of the height it has within 60 ms after a moment, looked for from 40 ms before, seconds. */
function onsetNear(samples: Float32Array, timeS: number): number {
  const [from, to] = [Math.max(0, Math.round((timeS - 0.04) * RATE)), Math.round((timeS + 0.06) * RATE)];
  const height = samples.slice(from, to).reduce((most, value) => Math.max(most, Math.abs(value)), 0);
  return (from + samples.slice(from, to).findIndex((value) => Math.abs(value) >= 0.1 * height)) / RATE;
}

/** Largest step from one sample to the next. */
function steepest(samples: Float32Array, fromS: number, toS: number): number {
  let most = 0;
  for (let i = Math.round(fromS * RATE) + 1; i < toS * RATE; i += 1) most = Math.max(most, Math.abs((samples[i] ?? 0) - (samples[i - 1] ?? 0)));
  return most;
}

/** A live player, and what comes out of it. */
async function live(sounding: Sounding): Promise<{ player: SoundPlayer; context: AudioContext; height: () => number }> {
  const context = new AudioContext();
  await context.resume();
  const outlet = makeOutlet(context);
  const meter = context.createAnalyser();
  meter.fftSize = 2048;
  outlet.volume.connect(meter);
  const player = new SoundPlayer({ context, tones: await loadTones(context, () => undefined), outlet, onStop: () => undefined });
  player.choose(sounding);
  const samples = new Float32Array(meter.fftSize);
  return {
    player, context,
    height: () => {
      meter.getFloatTimeDomainData(samples);
      return samples.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
    },
  };
}

/** Under one name on the window. */
const bench = { render, levelDb, onsetNear, steepest, live, voicesOf, fetchVersion };

/** What a test finds there. */
export type SoundBench = typeof bench;

Object.assign(window, { bench });
