import { createHash } from 'node:crypto';
import { existsSync, readFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { IncomingFile, Store } from '../store/index.js';
import { readRoomPlan, type PlannedComment, type PlannedRecording, type RoomPlan } from './roomPlan.js';

/** What the demo room is put into. */
export interface DemoTarget {
  readonly store: Store;
  /** Folder with `room.json`; the one that comes with the program where left out. */
  readonly folder?: string;
}

/** The demo room's files, found from here both in `src/web` and in `dist/web`. */
const SAMPLES_FOLDER = fileURLToPath(new URL('../../sample-recordings', import.meta.url));

/** So many of the newest recordings have not been heard yet: an evening's work to begin with. */
const NOT_HEARD = 5;

/**
 * Puts the invented demo room into an empty store; does nothing where anything is there. People, pieces, playing and comments are
 * marked as invented, and every page says so. What the recordings hold is found out when the desk is first looked at.
 * @returns true where the room was put in
 */
export function seedDemo({ store, folder = SAMPLES_FOLDER }: DemoTarget): boolean {
  const planFile = join(folder, 'room.json');
  if (store.pupils().length > 0 || store.pieces().length > 0 || !existsSync(planFile)) return false;
  const plan = readRoomPlan(readFileSync(planFile, 'utf8'));
  // all files are read before anything is written: a fault leaves the store empty, not half furnished
  const planned = [...plan.recordings, ...plan.unreadable].map((recording) => ({ recording, file: fileIn(folder, recording.file) }));
  const pupils = new Map(plan.pupils.map(({ slug, name, pronoun, born }) => [slug, store.setBorn(store.addPupil(name, { pronoun, invented: true }).id, born)]));
  for (const { pupil, day, time } of plan.lessons) store.setLesson(listed(pupils.get(pupil)).id, { day, time });
  const pieces = new Map(plan.pieces.map(({ slug, title, score }) => [slug, store.addPiece({ title, invented: true, score: fileIn(folder, score) })]));
  const ids = new Map(planned.map(({ recording, file }) => [recording.file, store.addRecording({
    pupilId: listed(pupils.get(recording.pupil)).id,
    scoreId: store.scoreOfPiece(listed(pieces.get(recording.piece)).id).id,
    file,
    line: '',
    receivedAt: isoOf(recording.recordedAt),
  }).recording.id]));
  for (const id of heard(plan, ids)) store.setHeard(id, true);
  for (const comment of plan.comments) write(store, listed(ids.get(comment.file)), comment);
  return true;
}

/** Recordings that the teacher has heard: all but the newest. */
function heard({ recordings }: RoomPlan, ids: ReadonlyMap<string, number>): readonly number[] {
  return [...recordings].sort((a: PlannedRecording, b) => a.recordedAt.localeCompare(b.recordedAt)).slice(0, -NOT_HEARD).map(({ file }) => listed(ids.get(file)));
}

/** One comment, at the time at which it was written. */
function write(store: Store, recordingId: number, { file, bars, text, writtenAt, settled }: PlannedComment): void {
  const [first, last] = bars ?? [0, 0];
  const key = createHash('sha256').update(file + writtenAt).digest('hex');
  const place = bars === null ? { bars: ['', ''] as const, whole: true } : { bars: [String(first), String(last)] as const };
  const { id } = store.addComment({ recordingId, key, barIndexes: [first, last], ...place, text, writtenAt: isoOf(writtenAt) });
  if (settled) store.setSettled(id, true);
}

/** A local time of the plan as it is stored. */
function isoOf(local: string): string {
  return new Date(local).toISOString();
}

/**
 * @throws TypeError where the plan names somebody or something that it does not list
 */
function listed<T>(found: T | undefined): T {
  if (found === undefined) throw new TypeError('room.json names a pupil, piece or recording that it does not list');
  return found;
}

/** A file of the demo room. */
function fileIn(folder: string, path: string): IncomingFile {
  return { name: basename(path), bytes: readFileSync(join(folder, path)) };
}
