import type { TimedEvent } from './events.js';
import type { KeyPress } from './pairNotes.js';

/** Which channels are the piano, and what the others were. Channels 0-15. */
export interface ChannelChoice {
  readonly piano: ReadonlySet<number>;
  /** Other channels with notes of their own: a style, a backing. */
  readonly accompaniment: readonly number[];
  /** Other channels that only double the piano's notes: a layered sound. */
  readonly layers: readonly number[];
  readonly drums: boolean;
}

/** General MIDI keeps channel 10 (9 counted from 0) for drums. */
const DRUM_CHANNEL = 9;

/** General MIDI programmes 1-8 (0-7 counted from 0) are the pianos. */
const LAST_PIANO_PROGRAM = 7;

/** Least share (>=) of the pitched notes for the piano channels to be what the pupil played; below it, it was another sound. */
const PIANO_SHARE = 0.1;

/** Least share (>=) of a channel's notes that begin together with a piano note for it to be a layer of the same keys. */
const LAYER_SHARE = 0.9;

/** Farthest (<=) that two sounds of one key press are apart, seconds: messages of one press leave within a few milliseconds. */
export const LAYER_WINDOW_S = 0.005;

/**
 * Chooses the piano. The rule: the drum channel is left out; the channels on a piano programme are kept (a channel that
 * names no programme counts as piano; its programme is the one most of its notes sound with); where those hold
 * next to nothing, the pupil played with another sound, and the programme with most notes is kept. A style that
 * itself uses a piano sound cannot be told apart.
 */
export function chooseChannels(presses: readonly KeyPress[], events: readonly TimedEvent[]): ChannelChoice {
  const pitched = presses.filter((press) => press.channel !== DRUM_CHANNEL);
  const programs = programOfChannels(events);
  const pianos = pitched.filter((press) => (programs.get(press.channel) ?? 0) <= LAST_PIANO_PROGRAM);
  const played = pianos.length > 0 && pianos.length >= PIANO_SHARE * pitched.length ? pianos : mostUsed(pitched, programs);
  const piano = new Set(played.map((press) => press.channel));
  const others = [...new Set(pitched.map((press) => press.channel))].filter((channel) => !piano.has(channel)).sort((a, b) => a - b);
  const layered = new Set(others.filter((channel) => doubles(pitched.filter((press) => press.channel === channel), played)));
  return {
    piano,
    accompaniment: others.filter((channel) => !layered.has(channel)),
    layers: others.filter((channel) => layered.has(channel)),
    drums: pitched.length < presses.length,
  };
}

/** For each channel the programme that most of its notes sound with. */
function programOfChannels(events: readonly TimedEvent[]): ReadonlyMap<number, number> {
  const now = new Map<number, number>();
  const notes = new Map<number, Map<number, number>>();
  for (const event of events) {
    if (event.kind === 'program') now.set(event.channel, event.program);
    if (event.kind !== 'on') continue;
    const counts = notes.get(event.channel) ?? new Map<number, number>();
    const program = now.get(event.channel) ?? 0;
    notes.set(event.channel, counts.set(program, (counts.get(program) ?? 0) + 1));
  }
  return new Map([...notes].map(([channel, counts]) => [channel, mostFrequent(counts)]));
}

/** The presses on the programme that most notes sound with. */
function mostUsed(presses: readonly KeyPress[], programs: ReadonlyMap<number, number>): readonly KeyPress[] {
  const counts = new Map<number, number>();
  const programOf = (press: KeyPress): number => programs.get(press.channel) ?? 0;
  for (const press of presses) counts.set(programOf(press), (counts.get(programOf(press)) ?? 0) + 1);
  const chosen = mostFrequent(counts);
  return presses.filter((press) => programOf(press) === chosen);
}

/** The key counted most often; of equals the smallest; 0 for none. */
function mostFrequent(counts: ReadonlyMap<number, number>): number {
  return [...counts].sort((a, b) => b[1] - a[1] || a[0] - b[0])[0]?.[0] ?? 0;
}

/** True where nearly every press of `layer` begins together with a press of the same key in `main`. Both by onset. */
function doubles(layer: readonly KeyPress[], main: readonly KeyPress[]): boolean {
  const onsets = new Map<number, number[]>();
  for (const press of main) {
    const list = onsets.get(press.pitch);
    if (list === undefined) onsets.set(press.pitch, [press.onsetS]);
    else list.push(press.onsetS);
  }
  const from = new Map<number, number>();
  const together = layer.filter(({ pitch, onsetS }) => {
    const list = onsets.get(pitch) ?? [];
    let place = from.get(pitch) ?? 0;
    while ((list[place] ?? Infinity) < onsetS - LAYER_WINDOW_S) place += 1;
    from.set(pitch, place);
    return Math.abs((list[place] ?? Infinity) - onsetS) <= LAYER_WINDOW_S;
  });
  return together.length >= LAYER_SHARE * layer.length;
}
