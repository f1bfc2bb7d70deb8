/** Writes Standard MIDI Files byte by byte, readably. Deltas are ticks, channels 0-15, everything else as the bytes are. */

/** A variable-length quantity, by arithmetic rather than by shifts, so that it shares nothing with the reader. */
function vlq(value: number): number[] {
  const digits = [value % 128];
  for (let rest = Math.floor(value / 128); rest > 0; rest = Math.floor(rest / 128)) digits.unshift(128 + (rest % 128));
  return digits;
}

/** Bytes written as in the standard: "90 3C 7F". */
export function hex(text: string): number[] {
  return text.trim().split(/\s+/).map((pair) => Number.parseInt(pair, 16));
}

/** An event from its bytes, status included. */
export function event(delta: number, ...bytes: number[]): number[] {
  return [...vlq(delta), ...bytes];
}

export function on(delta: number, pitch: number, velocity = 64, channel = 0): number[] {
  return event(delta, 0x90 + channel, pitch, velocity);
}

export function off(delta: number, pitch: number, velocity = 40, channel = 0): number[] {
  return event(delta, 0x80 + channel, pitch, velocity);
}

export function control(delta: number, controller: number, value: number, channel = 0): number[] {
  return event(delta, 0xb0 + channel, controller, value);
}

export function program(delta: number, number: number, channel = 0): number[] {
  return event(delta, 0xc0 + channel, number);
}

export function tempo(delta: number, microseconds: number): number[] {
  return event(delta, 0xff, 0x51, 3, Math.floor(microseconds / 65_536), Math.floor(microseconds / 256) % 256, microseconds % 256);
}

interface Sound {
  readonly velocity?: number;
  readonly channel?: number;
}

/** A key pressed `delta` ticks after the last event and let go `length` ticks later. */
export function note(delta: number, pitch: number, length = 240, { velocity = 64, channel = 0 }: Sound = {}): number[] {
  return [...on(delta, pitch, velocity, channel), ...off(length, pitch, 40, channel)];
}

export const END_OF_TRACK = [0x00, 0xff, 0x2f, 0x00];

function word(value: number, count: number): number[] {
  return Array.from({ length: count }, (_, i) => Math.floor(value / 256 ** (count - 1 - i)) % 256);
}

/** A chunk with its name and length. */
export function chunk(name: string, body: readonly number[], length = body.length): number[] {
  return [...Array.from(name, (letter) => letter.charCodeAt(0)), ...word(length, 4), ...body];
}

/** A whole track: its events and the end-of-track event. */
export function track(...events: number[][]): number[] {
  return chunk('MTrk', [...events.flat(), ...END_OF_TRACK]);
}

interface FileOptions {
  readonly format?: number;
  /** Division word: ticks a crotchet, or two SMPTE bytes. */
  readonly division?: number;
  /** Number of tracks the header promises. */
  readonly promised?: number;
}

/** A file of chunks. Without a division, 480 ticks a crotchet: at the default tempo 960 ticks are a second. */
export function midiFile(options: FileOptions, ...chunks: number[][]): Uint8Array {
  const { format = chunks.length === 1 ? 0 : 1, division = 480, promised = chunks.length } = options;
  return Uint8Array.from([...chunk('MThd', [...word(format, 2), ...word(promised, 2), ...word(division, 2)]), ...chunks.flat()]);
}

/** A valid little piece: a tempo track, a pedal on a track of its own, right hand and left hand; invented. */
export function smallPiece(): Uint8Array {
  const right = [60, 62, 64, 65, 67, 69, 71, 72].flatMap((pitch, i) => note(i === 0 ? 0 : 240, pitch, 240, { velocity: 50 + 3 * i }));
  const left = [48, 43, 45, 41].flatMap((pitch, i) => note(i === 0 ? 0 : 120, pitch, 840, { velocity: 60 - 2 * i }));
  const pedal = [0, 40, 90, 127, 80, 20, 0].flatMap((value, i) => control(i === 0 ? 0 : 300, 64, value));
  return midiFile({}, track(tempo(0, 600_000), tempo(1920, 400_000)), track(pedal), track(right), track(left));
}
