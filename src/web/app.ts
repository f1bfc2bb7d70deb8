/**
 * The room as one express app, put together from its routes. Order matters: first who may ask at all, then
 * what is served, last what could not be. Tests call it as it is; only room.ts gives it a port.
 */
import compression from 'compression';
import express, { type Express } from 'express';
import { programVersion, type Pipeline, type Reading } from '../pipeline/index.js';
import type { Review } from '../review/index.js';
import type { Store } from '../store/index.js';
import { asksRoutes } from './asksRoutes.js';
import { commentRoutes } from './commentRoutes.js';
import { decisionRoutes } from './decisionRoutes.js';
import { copyRoutes } from './copyRoutes.js';
import { deskRoutes } from './deskRoutes.js';
import { doorRoutes, onlyInvited, type Door } from './door.js';
import { errorPage, nothingHere } from './errors.js';
import { createGlances } from './glances.js';
import { onlyOwnName, onlyOwnPages, securityHeaders } from './guards.js';
import { helpRoutes } from './help.js';
import { messageRoutes } from './messageRoutes.js';
import { partRoutes } from './partChoice.js';
import { phraseRoutes } from './phrases.js';
import { pieceRoutes } from './pieceRoutes.js';
import { planRoutes } from './planRoutes.js';
import { pupilRoutes } from './pupilRoutes.js';
import { recordingRoutes } from './recordingRoutes.js';
import { comparisonRoutes } from './comparison/comparisonRoutes.js';
import { sheetRoutes } from './lessonSheet/sheetRoutes.js';
import { reviewRoutes } from './reviewRoutes.js';
import { lessonRoutes } from './lesson/lessonRoutes.js';
import { reportRoutes } from './termReport/reportRoutes.js';
import { weeksRoutes } from './weeks/weeksRoutes.js';
import { pianoTones } from './soundFiles.js';
import { recorderRoutes } from './recorderRoutes.js';
import { scaleRoutes } from './scaleRoutes.js';
import { soundRoutes } from './soundRoutes.js';
import { askingConsent, consentRoutes } from './consentRoutes.js';
import { settingsRoutes, speaking } from './settings.js';
import type { Room } from './shared.js';
import { ASSETS_FOLDER, VIEWS_FOLDER } from './views.js';

/** What the room is made of. */
export interface AppParts {
  readonly store: Store;
  readonly pipeline: Pipeline;
  /** Clock; the machine's where left out. */
  readonly now?: () => Date;
  /** Takes one line for the log; nowhere where left out. */
  readonly log?: (line: string) => void;
  /** How other devices reach the room; left out where only this computer does. */
  readonly door?: Door;
}

/** The room as an express app that does not listen yet. */
export function createApp(parts: AppParts): Express {
  const basis = { store: parts.store, pipeline: parts.pipeline, now: parts.now ?? (() => new Date()), log: parts.log ?? (() => undefined), version: programVersion(), reviews: new WeakMap<Reading, Map<string, Review>>() };
  const room: Room = {
    ...basis,
    glances: createGlances(basis),
    forget: (files) => parts.pipeline.forget(files),
    // asked anew by every page: it may be changed on any of them
    get language() {
      return parts.store.language();
    },
  };
  const app = express();
  app.disable('x-powered-by');
  app.set('query parser', 'simple');
  app.set('view engine', 'ejs');
  app.set('views', VIEWS_FOLDER);
  app.set('view cache', true);
  const { door } = parts;
  app.use(onlyOwnName(door?.names), securityHeaders(), onlyOwnPages({ strict: door !== undefined }), compression());
  app.use(speaking(room));
  app.use('/assets', express.static(ASSETS_FOLDER, { index: false, cacheControl: false }));
  if (door !== undefined) app.use(doorRoutes(room), onlyInvited(room));
  app.use('/piano', ...pianoTones());
  app.use(privately(), askingConsent(room), settingsRoutes(room), helpRoutes(), consentRoutes(room), deskRoutes(room), pieceRoutes(room), partRoutes(room), planRoutes(room), pupilRoutes(room), recordingRoutes(room), reviewRoutes(room), soundRoutes(room), recorderRoutes(room), scaleRoutes(room), comparisonRoutes(room), sheetRoutes(room), weeksRoutes(room), lessonRoutes(room), reportRoutes(room), commentRoutes(room), copyRoutes(room), messageRoutes(room), phraseRoutes(room), decisionRoutes(room), asksRoutes(room));
  app.use(nothingHere(), errorPage(room));
  return app;
}

/**
 * Pages hold pupils' names and always show what is saved now: no copy is kept anywhere, Back asks
 * again.
 */
function privately(): express.RequestHandler {
  return (_request, response, next) => {
    response.set('Cache-Control', 'no-store');
    next();
  };
}
