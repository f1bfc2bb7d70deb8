/**
 * The address of a review. The files are read anew on each request; the pipeline's cache makes that cheap, and
 * what is shown can never be older than the files.
 */
import { randomUUID } from 'node:crypto';
import { Router, type Request, type Response } from 'express';
import { InputError } from '../base/index.js';
import type { FiledRecording } from '../store/index.js';
import { decisionNow } from './decisionsHere.js';
import { statusOf, told } from './errors.js';
import { recordingAt } from './recordingAt.js';
import { laneAsked } from './lanes.js';
import { reviewHead, reviewView } from './reviewPage.js';
import type { ReviewView } from './reviewTypes.js';
import { recordingFile, scoreFile, type Room } from './shared.js';
import { marksAsked } from './shownMarks.js';
import { sendPage } from './views.js';
import { engravingWidth } from './width.js';

/** A recording against its score, bar by bar. */
export function reviewRoutes(room: Room): Router {
  const router = Router();
  router.get('/pupils/:slug/recordings/:id', async (request, response, next) => {
    const recording = recordingAt(room, request.params);
    if (recording === null) next();
    else await sendReview(room, { request, response }, recording);
  });
  return router;
}

/** Sends the review, or the first lines and the reason where a file can no longer be read. */
async function sendReview(room: Room, { request, response }: { request: Request; response: Response }, recording: FiledRecording): Promise<void> {
  const title = `${recording.pupil.name}, ${recording.piece.title}`;
  try {
    const review = await readReview(room, request, recording);
    room.store.setHeard(recording.id, true);
    sendPage(response, { view: 'review', title, review });
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    // the reason may lie in a choice that was made since, not in the file
    const next = room.store.score(recording.scoreId).part === null ? 'send the file again to see the score' : 'the score is read from a part that you chose, and the piece’s page lets you choose another';
    const text = `${told(error, room.language)} The comments are below; ${next}.`;
    sendPage(response, { view: 'unreadable', title, status: statusOf(error), head: reviewHead(room, recording), text, comments: room.store.comments(recording.id) });
  }
}

/** Files to page. */
async function readReview(room: Room, request: Request, recording: FiledRecording): Promise<ReviewView> {
  const score = scoreFile(room.store, room.store.score(recording.scoreId));
  const [reading, engraving] = await Promise.all([
    room.pipeline.reading(score, recordingFile(room.store, recording)),
    room.pipeline.engraving(score, engravingWidth(request)),
  ]);
  return reviewView({ room, recording, reading, engraving, strand: strandAsked(request), removed: removedNow(room, request, recording), decision: decisionNow(room, request, recording), marks: marksAsked(request.query['marks']), lane: laneAsked(request.query['lane']), newKey: randomUUID });
}

/** `?try=2` asks for the second strand; counted from 0 here. */
function strandAsked(request: Request): number | null {
  const asked = request.query['try'];
  return typeof asked === 'string' && /^[1-9]\d{0,5}$/.test(asked) ? Number(asked) - 1 : null;
}

/** `?removed=12` offers to put comment 12 back. */
function removedNow(room: Room, request: Request, recording: FiledRecording) {
  const asked = request.query['removed'];
  const comment = typeof asked === 'string' && /^\d{1,12}$/.test(asked) ? room.store.comment(Number(asked)) : null;
  return comment?.recordingId === recording.id && comment.removedAt !== null ? comment : null;
}
