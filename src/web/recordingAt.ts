import type { Request } from 'express';
import { InputError } from '../base/index.js';
import type { FiledRecording } from '../store/index.js';
import type { Room } from './shared.js';

/** The recording at an address, or null where number and pupil do not belong together. */
export function recordingAt(room: Room, { slug, id }: { readonly slug: string; readonly id: string }): FiledRecording | null {
  const recording = /^\d{1,12}$/.test(id) ? room.store.recording(Number(id)) : null;
  return recording?.pupil.slug === slug ? recording : null;
}

/** The recording that a form is about. @throws InputError code `not-found` */
export function recordingOf(room: Room, request: Request): FiledRecording {
  const recording = recordingAt(room, { slug: String(request.params['slug']), id: String(request.params['id']) });
  if (recording === null) throw new InputError('not-found', 'The recording is no longer here.');
  return recording;
}
