import { parseMidi, type MidiEvent } from 'midi-file';
import type { CleanFile } from './cleanFile.js';
import { clockOf, type Clock, type TempoChange } from './clock.js';

/** What a recording needs of one MIDI event, in seconds. */
export type TimedEvent = EventPlace & (
  | { readonly kind: 'on'; readonly pitch: number; readonly velocity: number }
  | { readonly kind: 'off'; readonly pitch: number; readonly velocity: number | null }
  | { readonly kind: 'control'; readonly controller: number; readonly value: number }
  | { readonly kind: 'program'; readonly program: number }
);

/** When and where it happens. */
interface EventPlace {
  readonly timeS: number;
  readonly track: number;
  /** 0-15; 9 is the drum channel that players call 10. */
  readonly channel: number;
}

/** All events in time order; at one moment, in the order of the tracks and then of the file. */
export interface EventList {
  readonly events: readonly TimedEvent[];
  /** End of the last event, end-of-track marks counted. */
  readonly durationS: number;
}

/** An event of the library with its tick. */
interface Placed {
  readonly tick: number;
  readonly event: MidiEvent;
}

/**
 * Decodes a clean file with midi-file and sets it in time. Tempo changes count for all tracks, whichever they stand on;
 * the tracks of a format 2 file are pieces of their own and follow one another, each at its own tempo.
 */
export function decodeEvents(file: CleanFile): EventList {
  const tracks = parseMidi(file.bytes).tracks.map(placeEvents);
  const lists = file.header.format === 2 ? oneAfterAnother(file, tracks) : together(file, tracks);
  const events = lists.flatMap((list) => list.events);
  return { events: events.sort((a, b) => a.timeS - b.timeS), durationS: Math.max(0, ...lists.map((list) => list.durationS)) };
}

/** Adds up the delta times of a track. */
function placeEvents(track: readonly MidiEvent[]): readonly Placed[] {
  let tick = 0;
  return track.map((event) => {
    tick += event.deltaTime;
    return { tick, event };
  });
}

/** Formats 0 and 1: one clock for all tracks, from the tempo changes of all of them. */
function together(file: CleanFile, tracks: readonly (readonly Placed[])[]): readonly EventList[] {
  const clock = clockOf(file.header.division, tracks.flatMap(temposOf));
  return tracks.map((track, index) => timeTrack(track, index, clock));
}

/** Format 2: each track begins where the one before it ended, with a clock of its own. */
function oneAfterAnother(file: CleanFile, tracks: readonly (readonly Placed[])[]): readonly EventList[] {
  let startS = 0;
  return tracks.map((track, index) => {
    const clock = clockOf(file.header.division, temposOf(track));
    const offset = startS;
    const list = timeTrack(track, index, (tick) => offset + clock(tick));
    startS = list.durationS;
    return list;
  });
}

/** The tempo changes of a track. */
function temposOf(track: readonly Placed[]): readonly TempoChange[] {
  return track.flatMap(({ tick, event }) => event.type === 'setTempo' ? [{ tick, microseconds: event.microsecondsPerBeat }] : []);
}

/** A track in seconds; it lasts to its end-of-track mark, which is its last event. */
function timeTrack(track: readonly Placed[], index: number, clock: Clock): EventList {
  const events = track.flatMap(({ tick, event }) => timedEvent(event, clock(tick), index));
  return { events, durationS: clock(track.at(-1)?.tick ?? 0) };
}

/** The library marks a note-on of velocity 0 as a note-off with `byte9`: it carries no release velocity. */
function timedEvent(event: MidiEvent, timeS: number, track: number): readonly TimedEvent[] {
  switch (event.type) {
    case 'noteOn':
      return [{ kind: 'on', timeS, track, channel: event.channel, pitch: event.noteNumber, velocity: event.velocity }];
    case 'noteOff':
      return [{ kind: 'off', timeS, track, channel: event.channel, pitch: event.noteNumber, velocity: event.byte9 === true ? null : event.velocity }];
    case 'controller':
      return [{ kind: 'control', timeS, track, channel: event.channel, controller: event.controllerType, value: event.value }];
    case 'programChange':
      return [{ kind: 'program', timeS, track, channel: event.channel, program: event.programNumber }];
    default:
      return [];
  }
}
