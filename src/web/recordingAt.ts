import type { FiledRecording } from '../store/index.js';
import type { Room } from './shared.js';

/** The recording at an address, or null where number and pupil do not belong together. */
export function recordingAt(room: Room, { slug, id }: { readonly slug: string; readonly id: string }): FiledRecording | null {
  const recording = /^\d{1,12}$/.test(id) ? room.store.recording(Number(id)) : null;
  return recording?.pupil.slug === slug ? recording : null;
}
