import { existsSync, readFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Pipeline } from '../pipeline/index.js';
import type { IncomingFile, Store } from '../store/index.js';
import { deskLine } from './deskLine.js';
import { readRoomPlan, type PlannedRecording, type RoomPlan } from './roomPlan.js';

/** What the demo room is put into. */
export interface DemoTarget {
  readonly store: Store;
  readonly pipeline: Pipeline;
  /** Folder with `room.json`; the one that comes with the program where left out. */
  readonly folder?: string;
}

/** The demo room's files, found from here both in `src/web` and in `dist/web`. */
const SAMPLES_FOLDER = fileURLToPath(new URL('../../sample-recordings', import.meta.url));

/**
 * Puts the invented demo room into an empty store; does nothing where anything is there. People, pieces and playing are
 * marked as invented, and every page says so.
 * @returns true where the room was put in
 */
export async function seedDemo({ store, pipeline, folder = SAMPLES_FOLDER }: DemoTarget): Promise<boolean> {
  const planFile = join(folder, 'room.json');
  if (store.pupils().length > 0 || store.pieces().length > 0 || !existsSync(planFile)) return false;
  const plan = readRoomPlan(readFileSync(planFile, 'utf8'));
  // everything is read before anything is written: a fault leaves the store empty, not half furnished
  const lines = await Promise.all(plan.recordings.map((recording) => lineOf(recording, { plan, pipeline, folder })));
  const pupils = new Map(plan.pupils.map(({ slug, name, pronoun, born }) => [slug, store.setBorn(store.addPupil(name, { pronoun, invented: true }).id, born)]));
  const pieces = new Map(plan.pieces.map(({ slug, title, score }) => [slug, store.addPiece({ title, invented: true, score: fileIn(folder, score) })]));
  plan.recordings.forEach((recording, i) => {
    const pupilId = listed(pupils.get(recording.pupil)).id;
    const scoreId = store.scoreOfPiece(listed(pieces.get(recording.piece)).id).id;
    const receivedAt = new Date(recording.recordedAt).toISOString();
    store.addRecording({ pupilId, scoreId, file: fileIn(folder, recording.file), line: lines[i] ?? '', receivedAt });
  });
  return true;
}

/** What the desk says of one recording of the plan. */
async function lineOf(recording: PlannedRecording, { plan, pipeline, folder }: { plan: RoomPlan; pipeline: Pipeline; folder: string }): Promise<string> {
  const piece = listed(plan.pieces.find(({ slug }) => slug === recording.piece));
  return deskLine(await pipeline.reading(fileIn(folder, piece.score), fileIn(folder, recording.file)), 'british');
}

/**
 * @throws TypeError where the plan names a pupil or piece that it does not list
 */
function listed<T>(found: T | undefined): T {
  if (found === undefined) throw new TypeError('room.json names a pupil or piece that it does not list');
  return found;
}

/** A file of the demo room. */
function fileIn(folder: string, path: string): IncomingFile {
  return { name: basename(path), bytes: readFileSync(join(folder, path)) };
}

