/**
 * A piece's own page. So far the engraved score and whose recordings are there; what to know before teaching
 * it joins here.
 */
import { Router } from 'express';
import { countInWords, InputError, sentenceCase, word, type Language } from '../base/index.js';
import type { Engraving } from '../engrave/index.js';
import { beatUnit, tempoMarkOf } from '../review/index.js';
import type { Bar, Score } from '../score/index.js';
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

/** "An upbeat and 25 bars; four crotchets in a bar; Tempo di marcia, crotchet = 104." */
function factsOf(score: Score, room: Room): string {
  const first = score.bars.find((bar) => !bar.implicit);
  if (first === undefined) return '';
  const { language } = room;
  const counted = score.bars.filter((bar) => !bar.implicit).length;
  const upbeat = score.bars[0]?.implicit === true ? `an ${word('upbeat', language)} and ` : '';
  const length = `${upbeat}${countInWords(counted)} ${word(counted === 1 ? 'bar' : 'bars', language)}`;
  return `${sentenceCase([length, metreInWords(first, language), tempoMark(score, language)].filter((part) => part !== '').join('; '))}.`;
}

/** "four crotchets in a bar". */
function metreInWords({ time }: Bar, language: Language): string {
  const unit = beatUnit(time);
  const beats = (time.beats * 4) / time.beatType / unit.crotchets;
  return `${countInWords(beats)} ${word(unit.name, language)}${beats === 1 ? '' : 's'} in a ${word('bar', language)}`;
}

/** "Tempo di marcia, crotchet = 104". */
function tempoMark(score: Score, language: Language): string {
  const { unit, marked, words } = tempoMarkOf(score);
  const figure = marked === null ? '' : `${word(unit.name, language)} = ${Math.round(marked)}`;
  return [words, figure].filter((part) => part !== '').join(', ');
}

/** What is odd in the file, with its place. */
function warningsOf(score: Score) {
  return score.warnings.map(({ bar, text }) => ({ where: bar === null ? '' : `Bar ${bar}: `, text }));
}
