import { readVlq, VLQ_MAX, vlqBytes } from './bytes.js';
import { isTrack, type TrackSpan } from './chunks.js';
import { readEvent, type Step } from './readEvent.js';

/** A track rewritten so that any reader takes it: whole events only, status bytes written out, an end at the end. */
export interface CleanTrack {
  readonly bytes: readonly number[];
  /** Events kept, the end of the track not counted. */
  readonly events: number;
  /** Where to look for the next chunk. */
  readonly next: number;
  /** True where the events do not go on to the track's end: cut off, or something in them is not MIDI. */
  readonly broken: boolean;
}

const END_OF_TRACK = [0xff, 0x2f, 0x00] as const;

/**
 * Walks the events of a track up to the last whole one and writes them out cleanly, for libraries that stop at the
 * first fault or read beyond the end. Kept: notes, controllers, programme changes, tempo; the time of what is left
 * out is carried over to the next event. A track that was given too short a length (some recorders never fill it in)
 * is followed on to its end-of-track event.
 */
export function cleanTrack(bytes: Uint8Array, track: TrackSpan): CleanTrack {
  const readable = bytes.subarray(0, track.limit);
  const out: number[] = [];
  let at = track.start;
  let running: number | null = null;
  let waiting = 0;
  let total = 0;
  let events = 0;
  for (;;) {
    const delta = readVlq(readable, at);
    const step: Step | null = delta === null ? null : readEvent(readable, delta.next, running);
    if (delta === null || step === null || total + delta.value > VLQ_MAX) {
      out.push(...vlqBytes(waiting), ...END_OF_TRACK);
      return { bytes: out, events, next: track.cut ? at : track.end, broken: track.cut || at !== track.end };
    }
    total += delta.value;
    waiting += delta.value;
    at = step.next;
    running = step.running;
    if (step.last) {
      out.push(...vlqBytes(waiting), ...END_OF_TRACK);
      return { bytes: out, events, next: isTrack(bytes, at) ? at : Math.max(at, track.end), broken: false };
    }
    if (step.kept.length > 0) {
      out.push(...vlqBytes(waiting), ...step.kept);
      waiting = 0;
      events += 1;
    }
  }
}
