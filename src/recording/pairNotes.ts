import type { TimedEvent } from './events.js';

/** A key press before the recording is put together. */
export interface KeyPress {
  readonly track: number;
  readonly channel: number;
  readonly pitch: number;
  readonly velocity: number;
  readonly onsetS: number;
  readonly releaseS: number;
  readonly releaseVelocity: number | null;
  readonly hanging: boolean;
  /** True where the key was struck again before it had come up. */
  readonly doubled: boolean;
}

/** A press while it is being put together; `earlier` is the press of the same key that it cut off. */
interface Press {
  readonly track: number;
  readonly channel: number;
  readonly pitch: number;
  readonly onsetS: number;
  velocity: number;
  releaseS: number | null;
  releaseVelocity: number | null;
  doubled: boolean;
  earlier: Press | null;
}

/** Keys that are down, by channel and then by track and pitch. */
type Sounding = Map<number, Map<number, Press>>;

/** MIDI 1.0 channel mode messages that silence a channel: all sound off, all notes off, and the modes that imply it. */
const ALL_SOUND_OFF = 120;
const ALL_NOTES_OFF = 123;
const LAST_MODE_MESSAGE = 127;

/**
 * Pairs presses and releases. MIDI 1.0 leaves open what a second note-on of a sounding key means; a piano key cannot
 * go down twice, so the rule here is: within one track and channel the new stroke ends the earlier note at its own
 * onset, releases belong to the latest stroke, and a surplus release means nothing. Two strokes at one moment are one, the
 * louder. A release that comes at the very moment of the new stroke, only written after it, still ends the earlier
 * note. "All notes off" and "all sound off" end every note of their channel. What is never released lasts to the end
 * of the file and hangs.
 * @param events in time order
 * @returns in order of onset
 */
export function pairNotes(events: readonly TimedEvent[], durationS: number): readonly KeyPress[] {
  const presses: Press[] = [];
  const sounding: Sounding = new Map();
  for (const event of events) {
    if (event.kind === 'on') press(event, presses, sounding);
    if (event.kind === 'off') release(event, sounding);
    if (event.kind === 'control' && silences(event.controller)) releaseAll(event, sounding);
  }
  return presses.map((one) => finished(one, durationS));
}

/** 124-127 switch modes and, by MIDI 1.0, silence the channel as well. */
function silences(controller: number): boolean {
  return controller === ALL_SOUND_OFF || (controller >= ALL_NOTES_OFF && controller <= LAST_MODE_MESSAGE);
}

/** A key goes down; if it was down already, that ends here. */
function press(event: TimedEvent & { kind: 'on' }, presses: Press[], sounding: Sounding): void {
  const keys = sounding.get(event.channel) ?? new Map<number, Press>();
  sounding.set(event.channel, keys);
  const earlier = keys.get(keyOf(event)) ?? null;
  if (earlier?.onsetS === event.timeS) {
    earlier.velocity = Math.max(earlier.velocity, event.velocity);
    earlier.doubled = true;
    return;
  }
  if (earlier !== null) Object.assign(earlier, { releaseS: event.timeS, doubled: true, earlier: null });
  const { track, channel, pitch, velocity, timeS: onsetS } = event;
  const fresh: Press = { track, channel, pitch, velocity, onsetS, releaseS: null, releaseVelocity: null, doubled: false, earlier };
  presses.push(fresh);
  keys.set(keyOf(event), fresh);
}

/** A key comes up: the latest stroke ends, or the one before it where both messages belong to this very moment. */
function release(event: TimedEvent & { kind: 'off' }, sounding: Sounding): void {
  const keys = sounding.get(event.channel);
  const down = keys?.get(keyOf(event));
  if (keys === undefined || down === undefined) return;
  if (down.onsetS === event.timeS && down.earlier !== null) {
    Object.assign(down.earlier, { releaseVelocity: event.velocity, doubled: false });
    down.earlier = null;
    return;
  }
  down.releaseS = event.timeS;
  down.releaseVelocity = event.velocity;
  keys.delete(keyOf(event));
}

/** Every key of the channel comes up, on whichever track it went down; no release velocity is known. */
function releaseAll(event: TimedEvent, sounding: Sounding): void {
  for (const down of sounding.get(event.channel)?.values() ?? []) down.releaseS = event.timeS;
  sounding.delete(event.channel);
}

/** Two tracks may hold one channel, a hand each: their keys are told apart. */
function keyOf(event: { readonly track: number; readonly pitch: number }): number {
  return event.track * 128 + event.pitch;
}

/** What is still down lasts to the end of the file and hangs. */
function finished(one: Press, durationS: number): KeyPress {
  const { track, channel, pitch, velocity, onsetS, releaseVelocity, doubled } = one;
  return { track, channel, pitch, velocity, onsetS, releaseS: one.releaseS ?? durationS, releaseVelocity, hanging: one.releaseS === null, doubled };
}
