/** The address of two recordings of one piece, the earlier one second: "what has changed since". */
import { Router, type Request } from 'express';
import type { FiledRecording } from '../../store/index.js';
import { recordingAt } from '../recordingAt.js';
import { recordingFile, scoreFile, type Room } from '../shared.js';
import { sendPage } from '../views.js';
import { engravingWidth } from '../width.js';
import { comparisonView, type ComparisonView } from './comparisonPage.js';

/** Two recordings of one pupil and piece. */
export function comparisonRoutes(room: Room): Router {
  const router = Router();
  router.get('/pupils/:slug/recordings/:id/since/:other', async (request, response, next) => {
    const { slug, id, other } = request.params;
    const later = recordingAt(room, { slug, id });
    const earlier = recordingAt(room, { slug, id: other });
    if (later === null || earlier === null || later.id === earlier.id || later.piece.id !== earlier.piece.id) {
      next();
      return;
    }
    const comparison = await readBoth(room, request, { earlier, later });
    sendPage(response, { view: 'comparison', title: `${later.pupil.name}, ${later.piece.title}, two recordings`, comparison });
  });
  return router;
}

/** Files to page. Both are read against the later one's score: like with like. */
async function readBoth(room: Room, request: Request, { earlier, later }: { readonly earlier: FiledRecording; readonly later: FiledRecording }): Promise<ComparisonView> {
  const score = scoreFile(room.store, room.store.score(later.scoreId));
  const [before, after, engraving] = await Promise.all([
    room.pipeline.reading(score, recordingFile(room.store, earlier)),
    room.pipeline.reading(score, recordingFile(room.store, later)),
    room.pipeline.engraving(score, engravingWidth(request)),
  ]);
  return comparisonView({ room, earlier, later, readings: { earlier: before, later: after }, engraving });
}
