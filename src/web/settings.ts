/** How the room is set, for all its pages: which English it speaks. Set at the foot of every page, kept in the store. */
import { Router, urlencoded, type RequestHandler } from 'express';
import { InputError, spokenIn } from '../base/index.js';
import { fieldOf } from './commentForm.js';
import type { Room } from './shared.js';

/** Largest form of a setting, bytes: a word, and the address of the page that it was set on. */
const LARGEST_FORM = 4096;

/** An address of this room: one stroke, then anything but a second one of either kind. */
const OWN_ADDRESS = /^\/(?![/\\])/;

/** An address to go back to, or the desk where it is none of this room. */
export function ownAddress(address: string): string {
  return OWN_ADDRESS.test(address) ? address : '/';
}

/** What every template needs to speak: the language, `say` for its own sentences, and the page's address to come back to. */
export function speaking(room: Room): RequestHandler {
  return (request, response, next) => {
    const { language } = room;
    response.locals['language'] = language;
    response.locals['say'] = (text: string): string => spokenIn(text, language);
    response.locals['here'] = request.method === 'GET' ? request.originalUrl : '/';
    next();
  };
}

/** Takes a setting and goes back to the page that it was set on. */
export function settingsRoutes(room: Room): Router {
  const router = Router();
  router.post('/settings', urlencoded({ extended: false, limit: LARGEST_FORM, parameterLimit: 4 }), (request, response) => {
    const language = fieldOf(request, 'language');
    if (language !== 'british' && language !== 'american') throw new InputError('bad-value', 'The pages speak British or American English; choose one of the two.');
    room.store.setLanguage(language);
    const back = fieldOf(request, 'back');
    response.redirect(303, ownAddress(back));
  });
  return router;
}
