/** Builders of small MIDI files, written with midi-file. All music in them is invented for these tests. */
import { writeMidi, type MidiEvent } from 'midi-file';
import { readScore, type Score } from '../../src/score/index.js';

/** A note as [onset, length, key] or with a channel at the end; ticks of the file. */
export type Played = readonly [onset: number, length: number, key: number, channel?: number];

/** Events in order of time, a note's end before a start at the same tick. */
export function track(notes: readonly Played[], metas: readonly (readonly [number, object])[] = [], name?: string): MidiEvent[] {
  const timed: { readonly tick: number; readonly rank: number; readonly event: object }[] = [
    ...(name === undefined ? [] : [{ tick: 0, rank: 0, event: { type: 'trackName', text: name, meta: true } }]),
    ...metas.map(([tick, event]) => ({ tick, rank: 1, event: { ...event, meta: true } })),
    ...notes.flatMap(([onset, length, noteNumber, channel = 0]) => [
      { tick: onset, rank: 3, event: { type: 'noteOn', channel, noteNumber, velocity: 64 } },
      { tick: onset + length, rank: 2, event: { type: 'noteOff', channel, noteNumber, velocity: 0 } },
    ]),
  ].sort((a, b) => a.tick - b.tick || a.rank - b.rank);
  let now = 0;
  const events = timed.map(({ tick, event }) => {
    const deltaTime = tick - now;
    now = tick;
    return { deltaTime, ...event } as MidiEvent;
  });
  return [...events, { deltaTime: 0, type: 'endOfTrack', meta: true }];
}

/** A time signature event. */
export const time = (numerator: number, denominator: number): object => ({
  type: 'timeSignature',
  numerator,
  denominator,
  metronome: 24,
  thirtyseconds: 8,
});

/** Bytes of a MIDI file of 480 ticks a crotchet. */
export function bytes(tracks: readonly MidiEvent[][], header: object = {}): Uint8Array {
  return Uint8Array.from(writeMidi({ header: { format: 1, numTracks: tracks.length, ticksPerBeat: 480, ...header }, tracks: [...tracks] }));
}

/** Reads built tracks as a score. */
export function readMidiTracks(tracks: readonly MidiEvent[][], part?: string): Score {
  return readScore(bytes(tracks), { fileName: 'invented.mid', ...(part === undefined ? {} : { part }) });
}
