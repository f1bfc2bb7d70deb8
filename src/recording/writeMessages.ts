import { writeMidi, type MidiEvent } from 'midi-file';
import { TICKS_PER_SECOND, tickOf, type FileWords } from './writeRecording.js';

/** One message as a keyboard sent it. */
export interface KeyboardMessage {
  /** Seconds from the start of the recording. */
  readonly timeS: number;
  /** Status byte, 0x80-0xBF: note off, note on, key pressure, controller. */
  readonly status: number;
  /** Data bytes, 0-127. */
  readonly first: number;
  readonly second: number;
}

/** Kinds of message that are kept, by the upper half of the status byte. */
const NOTE_OFF = 0x8;
const NOTE_ON = 0x9;
const CONTROLLER = 0xb;

/**
 * What a keyboard sent as a Standard MIDI File of one track, message by message, so that nothing of it is interpreted before it is kept.
 * Messages of other kinds than notes and controllers are left out. Messages in any order; those of one moment stay in theirs.
 * @throws RangeError for a moment before the start or one that is no number
 */
export function messagesBytes(messages: readonly KeyboardMessage[], { name, notice }: FileWords): Uint8Array {
  const track: MidiEvent[] = [
    { deltaTime: 0, meta: true, type: 'trackName', text: name },
    ...(notice === undefined ? [] : [{ deltaTime: 0, meta: true as const, type: 'text' as const, text: notice }]),
    { deltaTime: 0, meta: true, type: 'setTempo', microsecondsPerBeat: 500_000 },
  ];
  let now = 0;
  for (const message of messages.toSorted((a, b) => a.timeS - b.timeS)) {
    const tick = tickOf(message.timeS);
    const event = eventOf(message, tick - now);
    if (event === null) continue;
    track.push(event);
    now = tick;
  }
  track.push({ deltaTime: TICKS_PER_SECOND / 2, meta: true, type: 'endOfTrack' });
  return Uint8Array.from(writeMidi({ header: { format: 0, numTracks: 1, ticksPerBeat: TICKS_PER_SECOND / 2 }, tracks: [track] }));
}

/** The library's event; null for a kind that is not kept. */
function eventOf({ status, first, second }: KeyboardMessage, deltaTime: number): MidiEvent | null {
  const channel = status & 0xf;
  switch (status >> 4) {
    case NOTE_OFF:
      return { deltaTime, channel, type: 'noteOff', noteNumber: first, velocity: second };
    case NOTE_ON:
      return { deltaTime, channel, type: 'noteOn', noteNumber: first, velocity: second };
    case CONTROLLER:
      return { deltaTime, channel, type: 'controller', controllerType: first, value: second };
    default:
      return null;
  }
}
