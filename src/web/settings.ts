/** How the room is set, for all its pages: words, light, size, paper; the demo room away and back. Nothing has to be set; all of it can. */
import { Router, urlencoded, type Request, type RequestHandler } from 'express';
import { InputError, spokenIn } from '../base/index.js';
import { fieldOf } from './commentForm.js';
import { PASSPHRASE_SETTING } from './door.js';
import { isChoice, lookOf, LOOKS } from './look.js';
import { ownAddress } from './ownAddress.js';
import type { Room } from './shared.js';
import { sendPage } from './views.js';

/** Largest form of a setting, bytes: a few words, and the address of the page that it was set on. */
const LARGEST_FORM = 4096;

/** What every template needs to speak and look as it is set: the language, `say` for its own sentences, the look, and the page's address to come back to. */
export function speaking(room: Room): RequestHandler {
  return (request, response, next) => {
    const { language } = room;
    response.locals['language'] = language;
    response.locals['say'] = (text: string): string => spokenIn(text, language);
    response.locals['look'] = lookOf(room.store, language);
    response.locals['here'] = request.method === 'GET' ? request.originalUrl : '/';
    next();
  };
}

/** The page of settings, and what is set there or at the foot of any page. */
export function settingsRoutes(room: Room): Router {
  const router = Router();
  const { store } = room;
  const form = urlencoded({ extended: false, limit: LARGEST_FORM, parameterLimit: 8 });
  router.get('/settings', (_request, response) =>
    sendPage(response, { view: 'settings', title: 'Settings', looks: LOOKS, demo: store.demoState(), passphrase: store.setting(PASSPHRASE_SETTING) !== null, folder: store.folder }));
  // takes a setting and goes back to the page that it was set on
  router.post('/settings', form, (request, response) => {
    set(room, request);
    response.redirect(303, ownAddress(fieldOf(request, 'back')));
  });
  router.post('/settings/demo', form, (request, response) => {
    if (fieldOf(request, 'demo') === 'away') store.removeDemo();
    else store.restoreDemo();
    response.redirect(303, '/settings#demo');
  });
  return router;
}

/** Everything that the form names. @throws InputError code `bad-value`; then nothing is set */
function set({ store }: Room, request: Request): void {
  const language = fieldOf(request, 'language');
  const chosen = LOOKS.map(({ name }) => ({ name, value: fieldOf(request, name) })).filter(({ value }) => value !== '');
  if (language !== '' && language !== 'british' && language !== 'american') throw new InputError('bad-value', 'The pages speak British or American English; choose one of the two.');
  if (!chosen.every(({ name, value }) => isChoice(name, value)) || (language === '' && chosen.length === 0)) throw new InputError('bad-value', 'There is no such setting. Open the page again and choose once more.');
  if (language !== '') store.setLanguage(language);
  for (const { name, value } of chosen) store.setSetting(name, value);
}
