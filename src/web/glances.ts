/**
 * Keeps the glance of every recording up to date without a page ever waiting for one. A page shows what is kept and, where
 * that was made from something else than what holds now, has it made anew behind its back, one recording after another.
 */
import { InputError } from '../base/index.js';
import { WorkerFault, type Reading } from '../pipeline/index.js';
import type { FiledRecording } from '../store/index.js';
import { deskLine } from './deskLine.js';
import { holding } from './decisionsHere.js';
import { told } from './errors.js';
import { glanceOf, noGlance, readGlance, writeGlance, type Glance } from './glance.js';
import type { Glances } from './glanceTypes.js';
import { reviewOf } from './reviewOf.js';
import { readingOf } from './recordingAt.js';
import type { Room } from './shared.js';

/** Glances of a room; nothing is done before a page asks. */
export function createGlances(room: Pick<Room, 'store' | 'pipeline' | 'version' | 'reviews' | 'log'>): Glances {
  const queue = new Map<number, FiledRecording>();
  let working: Promise<void> | null = null;

  function save(recording: FiledRecording, glance: Glance): Glance {
    room.store.keepGlance(recording.id, { madeFrom: madeFrom(room, recording), body: writeGlance(glance) });
    return glance;
  }

  async function work(): Promise<void> {
    // a Map gives what is added while it is walked, too
    for (const next of queue.values()) {
      await remake(next);
      queue.delete(next.id);
    }
  }

  async function remake(queued: FiledRecording): Promise<void> {
    // whoever asked may have been quicker than the deleting of it
    const recording = room.store.recording(queued.id);
    if (recording === null) return;
    try {
      save(recording, await readAnew(room, recording));
    } catch (error) {
      // the room is being closed: made at the next start
      if (error instanceof WorkerFault && error.kind === 'closed') throw error;
      room.log(`a glance could not be made: ${error instanceof Error ? error.name : 'unknown fault'}`);
      // the same program would fail over the same files again
      save(recording, noGlance(OWN_FAULT));
    }
  }

  function need(recording: FiledRecording): void {
    queue.set(recording.id, recording);
    working ??= work().catch(() => queue.clear()).finally(() => (working = null));
  }

  return {
    at(recording) {
      const kept = room.store.glance(recording.id);
      if (kept?.madeFrom !== madeFrom(room, recording)) need(recording);
      return kept === null ? null : readGlance(kept.body);
    },
    keep: (recording, reading) => save(recording, glanceFrom(room, recording, reading)),
    waiting: () => queue.size,
    idle: async () => working ?? undefined,
  };
}

/** Which form of glances this is: one more where what is kept of a review changes. */
const FORM = 3;

/** Said where the program itself is at fault. */
const OWN_FAULT = 'Something went wrong inside Barwise; the file is kept.';

/** Everything that a glance depends on, as one text. */
function madeFrom(room: Pick<Room, 'store' | 'version'>, recording: FiledRecording): string {
  const { file, part } = room.store.score(recording.scoreId);
  const decided = holding(room, recording).map(({ id }) => id);
  const plan = room.store.newestPlan(recording.piece.id)?.id ?? null;
  return JSON.stringify([FORM, room.version, file, part, recording.file, recording.purpose, recording.pupil.born, decided, plan]);
}

/** Reads the files of a recording again, and says anew what it holds; what is wrong with them is a glance too. */
async function readAnew(room: Pick<Room, 'store' | 'pipeline' | 'reviews'>, recording: FiledRecording): Promise<Glance> {
  try {
    const reading = await readingOf(room, recording);
    room.store.setLine(recording.id, deskLine(reading, 'british'));
    return glanceFrom(room, recording, reading);
  } catch (error) {
    if (error instanceof InputError) return noGlance(told(error, 'british'));
    throw error;
  }
}

/** The glance at a reading. */
function glanceFrom(room: Pick<Room, 'store' | 'reviews'>, recording: FiledRecording, reading: Reading): Glance {
  return glanceOf(reviewOf(room, recording, reading, 'british'), reading);
}
