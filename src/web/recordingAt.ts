import type { Request } from 'express';
import { InputError } from '../base/index.js';
import type { Reading } from '../pipeline/index.js';
import type { FiledRecording, Pupil } from '../store/index.js';
import { recordingFile, scoreFile, type Room } from './shared.js';

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

/** The pupil of an address, on the lists or off them. @throws InputError code `not-found` */
export function pupilOf(room: Room, request: Request): Pupil {
  const pupil = room.store.pupil(String(request.params['slug']));
  if (pupil === null) throw new InputError('not-found', 'This pupil is no longer here.');
  return pupil;
}

/** A kept recording against its score. @throws InputError where one of the files cannot be read */
export function readingOf({ store, pipeline }: Pick<Room, 'store' | 'pipeline'>, recording: FiledRecording): Promise<Reading> {
  return pipeline.reading(scoreFile(store, store.score(recording.scoreId)), recordingFile(store, recording));
}
