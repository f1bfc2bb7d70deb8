import { writeMidi, type MidiEvent } from 'midi-file';
import type { ControlPoint, RecordedNote, Recording } from './types.js';

/** Ticks a second: 1000 to the crotchet at 120 crotchets a minute, so that every onset has 4 exact decimals. */
export const TICKS_PER_SECOND = 2000;

/** Controller numbers of the three pedals (MIDI 1.0). */
const PEDALS = { sustain: 64, sostenuto: 66, soft: 67 } as const;

/** What is put into the file beside the playing. */
export interface FileWords {
  /** Name of the track. */
  readonly name: string;
  /** A text of its own, such as "invented"; none where left out. */
  readonly notice?: string;
}

/** What can be written: a recording, or one in the making. */
export type Writable = { readonly notes: readonly Omit<RecordedNote, 'index' | 'hanging'>[] } & Pick<Recording, 'sustain'> & Partial<Pick<Recording, 'sostenuto' | 'soft' | 'durationS'>>;

/** An event at its tick. `rank` orders events of one moment: releases, pedals, key presses. */
interface Placed {
  readonly tick: number;
  readonly rank: number;
  readonly event: (deltaTime: number) => MidiEvent;
}

/**
 * A recording as a Standard MIDI File of one track, format 0. Moments are rounded to half a millisecond; every note lasts at
 * least that long. A note without a release velocity is ended as instruments without one do, by a note-on of velocity 0.
 * @throws RangeError for a moment before the start or one that is no number
 */
export function recordingBytes(recording: Writable, { name, notice }: FileWords): Uint8Array {
  const { notes, sustain, sostenuto = [], soft = [], durationS = 0 } = recording;
  const pedals = [pedalEvents(sustain, PEDALS.sustain), pedalEvents(sostenuto, PEDALS.sostenuto), pedalEvents(soft, PEDALS.soft)].flat();
  const events = [...notes.flatMap(noteEvents), ...pedals].sort((a, b) => a.tick - b.tick || a.rank - b.rank);
  const track: MidiEvent[] = [
    { deltaTime: 0, meta: true, type: 'trackName', text: name },
    ...(notice === undefined ? [] : [{ deltaTime: 0, meta: true as const, type: 'text' as const, text: notice }]),
    { deltaTime: 0, meta: true, type: 'setTempo', microsecondsPerBeat: 500_000 },
  ];
  let now = 0;
  for (const { tick, event } of events) {
    track.push(event(tick - now));
    now = tick;
  }
  // a file that says no end of its own rings on for half a second
  const rest = durationS === 0 ? TICKS_PER_SECOND / 2 : Math.max(0, tickOf(durationS) - now);
  track.push({ deltaTime: rest, meta: true, type: 'endOfTrack' });
  return Uint8Array.from(writeMidi({ header: { format: 0, numTracks: 1, ticksPerBeat: TICKS_PER_SECOND / 2 }, tracks: [track] }));
}

/** The tick nearest to a moment, as `recordingBytes` writes it. @throws RangeError for a moment before the start or one that is no number */
export function tickOf(timeS: number): number {
  const tick = Math.round(timeS * TICKS_PER_SECOND);
  if (!(tick >= 0)) throw new RangeError(`a recording has no moment ${timeS}`);
  return tick;
}

/** Key down and key up, at least a tick apart. */
function noteEvents(note: Writable['notes'][number]): readonly Placed[] {
  const channel = 0;
  const { pitch: noteNumber, velocity, releaseVelocity } = note;
  const down = tickOf(note.onsetS);
  const up = Math.max(down + 1, tickOf(note.releaseS));
  return [
    { tick: down, rank: 2, event: (deltaTime) => ({ deltaTime, channel, type: 'noteOn', noteNumber, velocity }) },
    {
      tick: up, rank: 0, event: (deltaTime) => releaseVelocity === null
        ? { deltaTime, channel, type: 'noteOn', noteNumber, velocity: 0 }
        : { deltaTime, channel, type: 'noteOff', noteNumber, velocity: releaseVelocity },
    },
  ];
}

/** The positions of one pedal. */
function pedalEvents(points: readonly ControlPoint[], controllerType: number): readonly Placed[] {
  return points.map(({ timeS, value }) => ({ tick: tickOf(timeS), rank: 1, event: (deltaTime) => ({ deltaTime, channel: 0, type: 'controller', controllerType, value }) }));
}
