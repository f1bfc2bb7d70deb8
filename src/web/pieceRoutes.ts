/**
 * A piece's own page: the engraved score with all that is known of it, the teaching notes, and whose recordings are there.
 */
import { Router, type Request } from 'express';
import { InputError } from '../base/index.js';
import type { FiledRecording, Piece } from '../store/index.js';
import { momentInWords } from './moments.js';
import { partChoice, type PartChoice } from './partChoice.js';
import { pieceHistories } from './pieceHistories.js';
import { pieceView } from './piecePage.js';
import { rememberPlaces } from './pieceSystems.js';
import type { PieceComment } from './pieceTypes.js';
import type { PlanHistory } from './planView.js';
import { pieceAddress, recordingAddress, scoreFile, type Room } from './shared.js';
import { titlesOf } from './titles.js';
import { sendPage } from './views.js';
import { wholeWidth } from './width.js';

/** A piece's page: its score with the analysis, and whose recordings are there. */
export function pieceRoutes(room: Room): Router {
  const router = Router();
  const placesIn = rememberPlaces();
  router.get('/pieces/:slug', async (request, response, next) => {
    const piece = room.store.piece(request.params.slug);
    if (piece === null) {
      next();
      return;
    }
    const title = titlesOf(room).get(piece.id) ?? { whole: piece.title, apart: '' };
    const recordings = room.store.recordings({ pieceId: piece.id });
    const view = await pieceView({ room, widthPx: wholeWidth(request), file: () => fileOf(room, piece), comments: commentsByBar(room, recordings), histories: pieceHistories(room, recordings), placesIn, planning: planning(room, request, piece) });
    sendPage(response, { view: 'piece', title: title.whole, apart: title.apart, piece, page: view, part: await partOf(room, piece), recordings: recordings.map((recording) => lineOf(room, recording)) });
  });
  return router;
}

/** The versions of its pedal plan, and what the address says was just done to it: `?planned=3`, `?unplanned=3`. */
function planning(room: Room, request: Request, piece: Piece): PlanHistory {
  const asked = ['planned', 'unplanned'].flatMap((name) => {
    const id = request.query[name];
    return typeof id === 'string' && /^\d{1,9}$/.test(id) ? [{ id: Number(id), removed: name === 'unplanned' }] : [];
  });
  return { action: `${pieceAddress(piece.slug)}/pedal`, versions: room.store.planVersions(piece.id), now: asked[0] ?? null, moment: room.now() };
}

/** What is said of the parts of its score; nothing where the score cannot be read, which the page tells already. */
async function partOf(room: Room, piece: Piece): Promise<PartChoice | null> {
  try {
    return partChoice(await room.pipeline.score(fileOf(room, piece)), room.store.scoreOfPiece(piece.id));
  } catch (error) {
    if (error instanceof InputError) return null;
    throw error;
  }
}

/** The newest score of a piece. */
function fileOf(room: Room, piece: Piece) {
  return scoreFile(room.store, room.store.scoreOfPiece(piece.id));
}

/** A recording in the list. */
function lineOf(room: Room, recording: FiledRecording) {
  return { href: recordingAddress(recording), pupil: recording.pupil.name, line: recording.line, when: momentInWords(recording.receivedAt, room.now()) };
}

/** Comments on recordings of the piece by the bar that they begin at. */
function commentsByBar(room: Room, recordings: readonly FiledRecording[]): ReadonlyMap<number, readonly PieceComment[]> {
  const byBar = new Map<number, readonly PieceComment[]>();
  for (const recording of recordings) {
    for (const comment of room.store.comments(recording.id)) {
      const [barIndex] = comment.barIndexes;
      const view = { text: comment.text, pupil: recording.pupil.name, href: recordingAddress(recording), when: momentInWords(comment.editedAt, room.now()) };
      byBar.set(barIndex, [...(byBar.get(barIndex) ?? []), view]);
    }
  }
  return byBar;
}
