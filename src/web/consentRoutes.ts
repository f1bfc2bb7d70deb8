/**
 * Consent to keep recordings of pupils under eighteen. A new pupil is asked about once, on the desk and on the pupil's page; nothing is kept from
 * the teacher until she answers, since what is needed local law decides.
 */
import { Router, urlencoded, type RequestHandler } from 'express';
import { InputError } from '../base/index.js';
import type { Consent, Pupil } from '../store/index.js';
import { fieldOf } from './commentForm.js';
import { momentInWords, type MomentWords } from './moments.js';
import { ownAddress } from './ownAddress.js';
import { pupilAddress, type Room } from './shared.js';

/** Largest form, bytes: a word and an address. */
const LARGEST_FORM = 4096;

/** A pupil to be asked about. */
export interface ConsentAsked {
  readonly name: string;
  readonly action: string;
}

/** Gives templates what they need to ask and to tell: `consentsToAsk()` and `consentTold(pupil)`. */
export function askingConsent(room: Room): RequestHandler {
  return (_request, response, next) => {
    response.locals['consentsToAsk'] = (): readonly ConsentAsked[] => room.store.pupilsToAsk().map((pupil) => ({ name: pupil.name, action: `${pupilAddress(pupil.slug)}/consent` }));
    response.locals['consentTold'] = (pupil: Pupil): (Consent & { readonly when: MomentWords; readonly action: string }) | null => {
      const consent = room.store.consentOf(pupil.id);
      return consent === null ? null : { ...consent, when: momentInWords(consent.givenAt, room.now()), action: `${pupilAddress(pupil.slug)}/consent` };
    };
    next();
  };
}

/** Takes the answer. */
export function consentRoutes(room: Room): Router {
  const router = Router();
  router.post('/pupils/:slug/consent', urlencoded({ extended: false, limit: LARGEST_FORM, parameterLimit: 4 }), (request, response) => {
    const pupil = room.store.pupil(request.params.slug);
    if (pupil === null) throw new InputError('not-found', 'This pupil is no longer here.');
    room.store.setConsent(pupil.id, answerIn(fieldOf(request, 'consent')));
    response.redirect(303, ownAddress(fieldOf(request, 'back')));
  });
  return router;
}

/** What was answered. @throws InputError code `bad-value` */
function answerIn(text: string): Pick<Consent, 'adult'> | null {
  if (text === 'adult') return { adult: true };
  if (text === 'given') return { adult: false };
  if (text === 'none') return null;
  throw new InputError('bad-value', 'The form was not complete. Open the page again and answer once more.');
}
