import { existsSync, readFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Pipeline } from '../pipeline/index.js';
import type { IncomingFile, Piece, Pupil, Store } from '../store/index.js';
import { deskLine } from './deskLine.js';
import { readRoomPlan, type PlannedRecording } from './roomPlan.js';
import { scoreFile } from './shared.js';

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
  const pupils = new Map(plan.pupils.map((pupil) => [pupil.slug, store.addPupil(pupil.name, { pronoun: pupil.pronoun, invented: true })]));
  const pieces = new Map<string, Piece>();
  for (const piece of plan.pieces) {
    pieces.set(piece.slug, store.addPiece({ title: piece.title, composer: '', invented: true, score: fileIn(folder, piece.score) }));
  }
  for (const recording of plan.recordings) await addPlanned({ store, pipeline, folder }, recording, { pupil: pupils.get(recording.pupil), piece: pieces.get(recording.piece) });
  return true;
}

/** Reads one recording of the plan and files it under the day it is said to be from. */
async function addPlanned(to: Required<DemoTarget>, planned: PlannedRecording, of: { pupil: Pupil | undefined; piece: Piece | undefined }): Promise<void> {
  const { store, pipeline, folder } = to;
  if (of.pupil === undefined || of.piece === undefined) throw new RangeError('room.json names a pupil or piece that it does not list');
  const score = store.scoreOfPiece(of.piece.id);
  const file = fileIn(folder, planned.file);
  const reading = await pipeline.reading(scoreFile(store, score), file);
  const receivedAt = new Date(planned.recordedAt).toISOString();
  store.addRecording({ pupilId: of.pupil.id, scoreId: score.id, file, line: deskLine(reading, 'british'), receivedAt });
}

/** A file of the demo room. */
function fileIn(folder: string, path: string): IncomingFile {
  return { name: basename(path), bytes: readFileSync(join(folder, path)) };
}

