/** The term report of a pupil: shown, written, printed. What is saved is on the disk when the answer goes out. */
import { Router, urlencoded, type Request } from 'express';
import { InputError } from '../../base/index.js';
import type { Pupil } from '../../store/index.js';
import { fieldOf } from '../commentForm.js';
import { statusOf, told } from '../errors.js';
import { pupilOf } from '../recordingAt.js';
import type { Room } from '../shared.js';
import { sendPage } from '../views.js';
import { LONGEST_TEXT, reportAddress, reportView, type ReportBody } from './reportPage.js';

/** Largest form, bytes: the text twice, nine bytes a character. */
const LARGEST_FORM = 2 * 9 * LONGEST_TEXT;

/** Showing and saving. The page's script asks for JSON; without it the form comes back as the page. */
export function reportRoutes(room: Room): Router {
  const router = Router();
  router.get('/pupils/:slug/report', (request, response) => {
    const pupil = listedPupil(room, request);
    sendPage(response, { view: 'termReport', title: `Term report, ${pupil.name}`, report: reportView(room, pupil) });
  });
  router.post('/pupils/:slug/report', urlencoded({ extended: false, limit: LARGEST_FORM, parameterLimit: 6 }), (request, response) => {
    const pupil = listedPupil(room, request);
    const asksJson = request.accepts(['html', 'json']) === 'json';
    try {
      room.store.saveTermReport(pupil.id, JSON.stringify(bodyFrom(request)));
    } catch (error) {
      if (!asksJson || !(error instanceof InputError)) throw error;
      response.status(statusOf(error)).json({ error: told(error, room.language) });
      return;
    }
    if (asksJson) response.json({ saved: true });
    else response.redirect(303, reportAddress(pupil));
  });
  return router;
}

/** What the form holds. @throws InputError code `too-large` or `bad-value` */
function bodyFrom(request: Request): ReportBody {
  const text = fieldOf(request, 'text').replace(/\r\n?/g, '\n').trim();
  const from = fieldOf(request, 'from');
  if (text.length > LONGEST_TEXT) throw new InputError('too-large', `There is room for ${LONGEST_TEXT} characters, and the text has ${text.length}. Shorten it, so that the report stays one side.`);
  if (!/^\d{4}-\d\d-\d\d$/.test(from) || Number.isNaN(Date.parse(from))) throw new InputError('bad-value', 'The first day of the term is not a date.');
  return { from, text };
}

/** A pupil on the lists. @throws InputError code `not-found` */
function listedPupil(room: Room, request: Request): Pupil {
  const pupil = pupilOf(room, request);
  if (pupil.removedAt !== null) throw new InputError('not-found', 'This pupil is not on the lists.');
  return pupil;
}
