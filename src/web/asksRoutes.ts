/** Saying what to ask of a pupil's reviews, and taking it back. */
import { Router, urlencoded, type Request } from 'express';
import { InputError } from '../base/index.js';
import { ASPECTS, readPreferences, type Preferences } from '../judge/index.js';
import { ownDecisions, STRICT_ON } from './asks.js';
import { fieldOf } from './commentForm.js';
import { pupilOf } from './recordingAt.js';
import { pupilAddress, type Room } from './shared.js';

/** Largest form, bytes. */
const LARGEST_FORM = 4096;

/** The routes; every answer leads back to the form. */
export function asksRoutes(room: Room): Router {
  const router = Router();
  const form = urlencoded({ extended: false, limit: LARGEST_FORM, parameterLimit: 20 });
  router.post('/pupils/:slug/asks', form, (request, response) => {
    const pupil = pupilOf(room, request);
    const value = preferencesFrom(request);
    room.store.setBorn(pupil.id, yearFrom(request));
    const { id } = room.store.addDecision({ pupilId: pupil.id, pieceId: null }, { kind: 'preferences', value });
    response.redirect(303, `${pupilAddress(pupil.slug)}?asked=${id}&was=${pupil.born ?? ''}#asks`);
  });
  router.post('/pupils/:slug/asks/undo', form, (request, response) => {
    const pupil = pupilOf(room, request);
    const asked = ownDecisions(room, pupil).find(({ id, kind }) => kind === 'preferences' && String(id) === fieldOf(request, 'decision'));
    if (asked === undefined) throw new InputError('not-found', 'This was taken back before.');
    room.store.setBorn(pupil.id, yearFrom(request));
    room.store.removeDecision(asked.id);
    response.redirect(303, `${pupilAddress(pupil.slug)}#asks`);
  });
  return router;
}

/** A year of birth as it was written; null where it was left empty. The store says which years there are. */
function yearFrom(request: Request): number | null {
  const written = fieldOf(request, 'born').trim();
  return written === '' ? null : Number(written);
}

/** Preferences from the form: all that it shows, so that what was strict before does not stay so. @throws InputError code `bad-value` */
function preferencesFrom(request: Request): Preferences {
  const strictness = Object.fromEntries(STRICT_ON.map((name) => [name, fieldOf(request, `strict-${name}`)]));
  return readPreferences({ strictness, lookAt: ASPECTS.filter((aspect) => fieldOf(request, `look-${aspect}`) !== '') });
}
