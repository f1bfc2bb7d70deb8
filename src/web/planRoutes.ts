/** Changing a piece's pedal plan; every change can be taken back. All reviews of the piece follow, since they are made under its plan. */
import { Router, urlencoded, type Request, type Response } from 'express';
import { editPlan, plannedOf, planTicks, type PlanEdit, type TeachersPlan } from '../analysis/index.js';
import { InputError } from '../base/index.js';
import type { Piece, PlanVersion } from '../store/index.js';
import { planAsked } from './planForm.js';
import { pieceAddress, scoreFile, type Room } from './shared.js';

/** Largest form of a change, bytes: a few short fields. */
const LARGEST_FORM = 4096;

/** The routes; every answer leads back to the piece. */
export function planRoutes(room: Room): Router {
  const router = Router();
  const form = urlencoded({ extended: false, limit: LARGEST_FORM, parameterLimit: 8 });
  router.post('/pieces/:slug/pedal', form, async (request, response) => {
    const piece = pieceOf(room, request);
    const { version, at } = await change(room, request, piece);
    back(response, piece, { query: `planned=${version.id}`, at });
  });
  router.post('/pieces/:slug/pedal/:version/remove', form, (request, response) => {
    const piece = pieceOf(room, request);
    back(response, piece, { query: `unplanned=${room.store.removePlan(versionOf(room, request, piece).id).id}`, at: null });
  });
  router.post('/pieces/:slug/pedal/:version/restore', form, (request, response) => {
    const piece = pieceOf(room, request);
    back(response, piece, { query: `planned=${room.store.restorePlan(versionOf(room, request, piece).id).id}`, at: null });
  });
  return router;
}

/** Does what the form asks; tells the new version and the place where the change is now. */
async function change(room: Room, request: Request, piece: Piece): Promise<{ readonly version: PlanVersion; readonly at: number | null }> {
  const file = scoreFile(room.store, room.store.scoreOfPiece(piece.id));
  const [score, analysis] = await Promise.all([room.pipeline.score(file), room.pipeline.analysis(file)]);
  const asked = planAsked(request, planTicks(score));
  if (asked.act === 'program') return { version: room.store.setPlan(piece.id, null), at: null };
  if (asked.act === 'version') return { version: room.store.setPlan(piece.id, planIn(room, piece, asked.id)), at: null };
  return { version: room.store.setPlan(piece.id, editPlan(score, plannedOf(analysis.pedalPlan), asked)), at: placeAfter(asked) };
}

/** Where a change is after it was made. */
function placeAfter(edit: PlanEdit): number {
  return edit.act === 'move' ? edit.toTick : edit.atTick;
}

/** A plan as it once was. @throws InputError code `not-found` */
function planIn(room: Room, piece: Piece, id: number): TeachersPlan | null {
  const version = room.store.planVersions(piece.id).find((one) => one.id === id);
  if (version === undefined) throw new InputError('not-found', 'This plan is not here.');
  return version.plan;
}

/** @throws InputError code `not-found` */
function pieceOf(room: Room, request: Request): Piece {
  const piece = room.store.piece(String(request.params['slug']));
  if (piece === null) throw new InputError('not-found', 'The piece is no longer here.');
  return piece;
}

/** The version in the address. @throws InputError code `not-found` */
function versionOf(room: Room, request: Request, piece: Piece): PlanVersion {
  const version = room.store.planVersions(piece.id).find(({ id }) => String(id) === request.params['version']);
  if (version === undefined) throw new InputError('not-found', 'This plan is not here.');
  return version;
}

/** Back to the plan, at the place that was changed. */
function back(response: Response, piece: Piece, { query, at }: { readonly query: string; readonly at: number | null }): void {
  const place = at === null ? '' : `&at=${at}`;
  response.redirect(303, `${pieceAddress(piece.slug)}?${query}${place}#${at === null ? 'plan' : `plan-${at}`}`);
}
