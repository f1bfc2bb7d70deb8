/** The tones of the piano: loaded once, kept in memory for all pages of one visit, played at other pitches by their neighbours. */

/** A tone ready to be played. */
export interface Tone {
  readonly buffer: AudioBuffer;
  /** MIDI number of the recorded string. */
  readonly pitch: number;
  /** Where in the buffer the string is struck, seconds: before it there are the keys and the coder's silence. */
  readonly strikeS: number;
}

/** Finds the tone for a pitch. */
export type Tones = (pitch: number) => Tone;

/** Every third key was recorded, from the lowest A to the highest C. */
const LOWEST = 21;
const HIGHEST = 108;
const STEP = 3;

/** Names of the recorded keys within an octave. */
const NAMES: Readonly<Record<number, string>> = { 0: 'C', 3: 'D#', 6: 'F#', 9: 'A' };

/** Longest that a tone is kept, seconds, and how it fades there: nobody holds a pedal longer without striking; 30 whole tones would take 160 MB. */
const LONGEST_S = 11;
const FADE_S = 1.5;

/** The string counts as struck where a tone first reaches this share of its height: before that are felt and keys. */
const STRUCK_SHARE = 0.1;

/** How many files are asked for at a time. */
const AT_A_TIME = 4;

/** All recorded pitches. */
export const RECORDED: readonly number[] = Array.from({ length: (HIGHEST - LOWEST) / STEP + 1 }, (_, i) => LOWEST + i * STEP);

/** Address of a recorded tone. */
function addressOf(pitch: number): string {
  const name = `${NAMES[pitch % 12] ?? ''}${Math.floor(pitch / 12) - 1}v10.mp3`;
  return `/piano/${encodeURIComponent(name)}`;
}

/**
 * Loads all tones.
 * @param tell hears how many of them are here
 * @throws TypeError where one cannot be had
 */
export async function loadTones(context: BaseAudioContext, tell: (loaded: number, all: number) => void): Promise<Tones> {
  const tones = new Map<number, Tone>();
  const waiting = [...RECORDED];
  const worker = async (): Promise<void> => {
    for (let pitch = waiting.shift(); pitch !== undefined; pitch = waiting.shift()) {
      tones.set(pitch, await loadTone(context, pitch));
      tell(tones.size, RECORDED.length);
    }
  };
  await Promise.all(Array.from({ length: AT_A_TIME }, worker));
  return (pitch) => {
    const nearest = Math.min(HIGHEST, Math.max(LOWEST, LOWEST + STEP * Math.round((pitch - LOWEST) / STEP)));
    const tone = tones.get(nearest);
    if (tone === undefined) throw new RangeError(`there is no tone for ${pitch}`);
    return tone;
  };
}

/** The sound of a key that comes up, by its MIDI number, and how high it is, of 1; null until it is here. */
export type Releases = (pitch: number) => { readonly buffer: AudioBuffer; readonly height: number } | null;

/** Keys between two that are loaded: neighbours come up alike. */
const RELEASE_STEP = 4;

/** Loads the sounds of keys that come up, behind the tones' back: without them the piano sounds all the same. */
export function loadReleases(context: BaseAudioContext): Releases {
  const sounds = new Map<number, { readonly buffer: AudioBuffer; readonly height: number }>();
  const nearest = (pitch: number): number => LOWEST + RELEASE_STEP * Math.round((Math.min(HIGHEST, Math.max(LOWEST, pitch)) - LOWEST) / RELEASE_STEP);
  const load = async (pitch: number): Promise<void> => {
    const response = await fetch(`/piano/rel${Math.min(pitch, HIGHEST) - LOWEST + 1}.mp3`);
    if (!response.ok) return;
    const buffer = await context.decodeAudioData(await response.arrayBuffer());
    sounds.set(pitch, { buffer, height: heightOf(buffer) });
  };
  for (let pitch = LOWEST; pitch <= nearest(HIGHEST); pitch += RELEASE_STEP) void load(pitch).catch(() => undefined);
  return (pitch) => sounds.get(nearest(pitch)) ?? null;
}

/** One tone, cut to what is needed. */
async function loadTone(context: BaseAudioContext, pitch: number): Promise<Tone> {
  const response = await fetch(addressOf(pitch));
  if (!response.ok) throw new TypeError(`the tone ${pitch} is not to be had`);
  const buffer = shortened(context, await context.decodeAudioData(await response.arrayBuffer()));
  return { buffer, pitch, strikeS: strikeOf(buffer) };
}

/** The tone's beginning, faded at its end; shorter ones stay as they are. */
function shortened(context: BaseAudioContext, whole: AudioBuffer): AudioBuffer {
  const frames = Math.round(LONGEST_S * whole.sampleRate);
  if (whole.length <= frames) return whole;
  const cut = context.createBuffer(whole.numberOfChannels, frames, whole.sampleRate);
  const fade = Math.round(FADE_S * whole.sampleRate);
  for (let channel = 0; channel < whole.numberOfChannels; channel += 1) {
    const samples = whole.getChannelData(channel).slice(0, frames);
    for (let i = 0; i < fade; i += 1) samples[frames - 1 - i] = (samples[frames - 1 - i] ?? 0) * (i / fade);
    cut.copyToChannel(samples, channel);
  }
  return cut;
}

/** Where the string is struck, seconds. */
function strikeOf(buffer: AudioBuffer): number {
  const samples = buffer.getChannelData(0);
  const height = heightOf(buffer);
  const first = samples.findIndex((value) => Math.abs(value) >= STRUCK_SHARE * height);
  return Math.max(0, first) / buffer.sampleRate;
}

/** Largest swing of the first channel, of 1. */
function heightOf(buffer: AudioBuffer): number {
  return buffer.getChannelData(0).reduce((most, value) => Math.max(most, Math.abs(value)), 0);
}
