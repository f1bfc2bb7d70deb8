import { Router } from 'express';
import { InputError } from '../base/index.js';
import type { Engraving } from '../engrave/index.js';
import { barNames, beatUnit } from '../review/index.js';
import type { Score } from '../score/index.js';
import type { Piece } from '../store/index.js';
import { momentInWords } from './moments.js';
import { recordingAddress, scoreFile, type Room } from './shared.js';
import { sendPage } from './views.js';
import { engravingWidth } from './width.js';

/** A piece's page: its score, engraved, and whose recordings are there. */
export function pieceRoutes(room: Room): Router {
  const router = Router();
  router.get('/pieces/:slug', async (request, response, next) => {
    const piece = room.store.piece(request.params.slug);
    if (piece === null) {
      next();
      return;
    }
    const shown = await readPiece(room, piece, engravingWidth(request));
    const recordings = room.store.recordings({ pieceId: piece.id }).map((recording) => ({
      href: recordingAddress(recording),
      pupil: recording.pupil.name,
      line: recording.line,
      when: momentInWords(recording.receivedAt, room.now()),
    }));
    sendPage(response, { view: 'piece', title: piece.title, piece, recordings, ...shown });
  });
  return router;
}

/** What can be shown of the score; where its file can no longer be read, why. */
async function readPiece(room: Room, piece: Piece, widthPx: number) {
  try {
    const file = scoreFile(room.store, room.store.scoreOfPiece(piece.id));
    const [score, engraving] = await Promise.all([room.pipeline.score(file), room.pipeline.engraving(file, widthPx)]);
    return { facts: factsOf(score, room), warnings: warningsOf(score), ...pictureOf(engraving), problem: null };
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return { facts: '', warnings: [], systems: [], defs: '', fallback: null, widthPx, problem: error.describe() };
  }
}

/** The engraving's systems as they stand in the page. */
function pictureOf(engraving: Engraving) {
  return { systems: engraving.systems.map((system) => system.svg), defs: engraving.defs, fallback: engraving.fallback, widthPx: engraving.widthPx };
}

/** "16 bars, crotchet beats; marked Andantino." */
function factsOf(score: Score, room: Room): string {
  const first = score.bars.find((bar) => !bar.implicit);
  const time = first === undefined ? '' : `, ${first.time.beats} over ${first.time.beatType}`;
  const tempo = score.directions.find((direction) => direction.kind === 'tempo');
  const unit = beatUnit(first?.time);
  const marked = tempo?.value === null || tempo === undefined ? '' : `, marked ${Math.round(tempo.value / unit.crotchets)} beats a minute`;
  const names = barNames(score, room.language);
  return score.bars.length === 0 ? '' : `${names.range(0, score.bars.length - 1).replace(/^./, (letter) => letter.toUpperCase())}${time}${marked}.`;
}

/** What is odd in the file, with its place. */
function warningsOf(score: Score) {
  return score.warnings.map(({ bar, text }) => ({ where: bar === null ? '' : `Bar ${bar}: `, text }));
}
