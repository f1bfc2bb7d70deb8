/** Leaving a kind of remark alone, calling something right as played, saying what a recording is for; each can be taken back. */
import { Router, urlencoded, type Request, type Response } from 'express';
import { InputError } from '../base/index.js';
import { readLeftAlone, readRightAsPlayed } from '../judge/index.js';
import { PURPOSES } from '../review/index.js';
import type { Decision, DecisionScope, FiledRecording, StoredDecision } from '../store/index.js';
import { barAsked, fieldOf } from './commentForm.js';
import { holding } from './decisionsHere.js';
import { recordingOf } from './recordingAt.js';
import { recordingAddress, scoreFile, type Room } from './shared.js';

/** Where decisions about a recording's remarks are sent. */
const DECISIONS = '/pupils/:slug/recordings/:id/decisions';

/** Largest form of a decision: the ids of a few hundred notes. */
const LARGEST_FORM = '64kb';

/** The routes; every answer leads back to the review. */
export function decisionRoutes(room: Room): Router {
  const router = Router();
  const form = urlencoded({ extended: false, limit: LARGEST_FORM, parameterLimit: 20 });
  router.post(DECISIONS, form, async (request, response) => {
    const recording = recordingOf(room, request);
    const { decision, scope } = await decisionFrom(room, request, recording);
    back(response, recording, `decided=${room.store.addDecision(scope, decision).id}`);
  });
  router.post(`${DECISIONS}/:decision/remove`, form, (request, response) => {
    const recording = recordingOf(room, request);
    back(response, recording, `undecided=${room.store.removeDecision(decisionOf(request, holding(room, recording))).id}`);
  });
  router.post(`${DECISIONS}/:decision/restore`, form, (request, response) => {
    const recording = recordingOf(room, request);
    room.store.restoreDecision(decisionOf(request, room.store.decisionsFor({ pupilId: recording.pupil.id, pieceId: recording.piece.id, takenBack: true })));
    back(response, recording, '');
  });
  router.post('/pupils/:slug/recordings/:id/purpose', form, (request, response) => {
    const recording = recordingOf(room, request);
    room.store.setPurpose(recording.id, purposeAsked(request));
    back(response, recording, '');
  });
  return router;
}

/** Number of a decision in the address. */
function numberAsked(request: Request): number {
  const asked = String(request.params['decision']);
  if (!/^\d{1,12}$/.test(asked)) throw new InputError('not-found', 'This decision is not here.');
  return Number(asked);
}

/** One of the decisions about this recording, by the number in the address. @throws InputError code `not-found` */
function decisionOf(request: Request, own: readonly StoredDecision[]): number {
  const id = numberAsked(request);
  if (!own.some((one) => one.id === id)) throw new InputError('not-found', 'This decision is not here.');
  return id;
}

/** A decision from its form. @throws InputError code `bad-value` */
async function decisionFrom(room: Room, request: Request, { pupil, piece, scoreId }: FiledRecording): Promise<{ readonly decision: Decision; readonly scope: DecisionScope }> {
  const [aspect, kind] = [fieldOf(request, 'aspect'), fieldOf(request, 'kind')];
  if (fieldOf(request, 'decision') === 'left') {
    return { decision: { kind: 'left', value: readLeftAlone({ aspect, kind }) }, scope: { pupilId: pupil.id, pieceId: null } };
  }
  const score = await room.pipeline.score(scoreFile(room.store, room.store.score(scoreId)));
  const places = fieldOf(request, 'places').split(' ').map((place) => place.split('-'));
  const bars = places.map(([from = '', to = from]) => [from, to].map((bar) => barAsked(score, bar).number));
  const hand = fieldOf(request, 'hand');
  const value = readRightAsPlayed({ aspect, kind, hand: hand === '' ? null : hand, notes: fieldOf(request, 'notes').split(' ').filter((id) => id !== ''), bars });
  return { decision: { kind: 'right', value }, scope: { pupilId: fieldOf(request, 'who') === 'everybody' ? null : pupil.id, pieceId: piece.id } };
}

/** A purpose by its name; empty lets it be guessed. @throws InputError code `bad-value` */
function purposeAsked(request: Request): string | null {
  const asked = fieldOf(request, 'purpose');
  if (asked === '') return null;
  const found = PURPOSES.find((one) => one === asked);
  if (found === undefined) throw new InputError('bad-value', 'There is no such purpose. Open the page again and choose once more.');
  return found;
}

/** Back to the margin of the review. */
function back(response: Response, recording: FiledRecording, query: string): void {
  response.redirect(303, `${recordingAddress(recording)}${query === '' ? '' : `?${query}`}#worth-saying`);
}
