/** What is done to a recording as a whole: heard or not, whose it is, taken off and put back. Files that wait find their place here too. */
import { Router, urlencoded, type Request, type Response } from 'express';
import { InputError } from '../base/index.js';
import type { Arrival, FiledRecording } from '../store/index.js';
import { fieldOf } from './commentForm.js';
import { deskLine } from './deskLine.js';
import { deskPage } from './deskPage.js';
import { placeArrival } from './fileTake.js';
import { pupilSaid } from './filing.js';
import { readAgainst } from './findPiece.js';
import { recordingOf } from './recordingAt.js';
import { momentInWords } from './moments.js';
import { pupilAddress, recordingAddress, recordingFile, type Room } from './shared.js';
import { titlesOf } from './titles.js';
import { sendPage } from './views.js';

/** Where a recording is. */
const RECORDING = '/pupils/:slug/recordings/:id';

/** Largest form, bytes: a name and a few words. */
const LARGEST_FORM = 4096;

/** The routes; every answer leads back to where the form stands. */
export function recordingRoutes(room: Room): Router {
  const router = Router();
  const form = urlencoded({ extended: false, limit: LARGEST_FORM, parameterLimit: 10 });
  router.post(`${RECORDING}/heard`, form, (request, response) => {
    const recording = room.store.setHeard(recordingOf(room, request).id, fieldOf(request, 'heard') === 'yes');
    back(response, request, recording, '');
  });
  router.post(`${RECORDING}/remove`, form, (request, response) => {
    const recording = room.store.removeRecording(recordingOf(room, request).id);
    back(response, request, recording, `?removed=${recording.id}`);
  });
  router.post(`${RECORDING}/restore`, form, (request, response) => {
    back(response, request, room.store.restoreRecording(recordingOf(room, request).id), '');
  });
  router.get(`${RECORDING}/move`, (request, response) => sendPage(response, movePage(room, recordingOf(room, request))));
  router.post(`${RECORDING}/move`, form, async (request, response) => {
    const recording = recordingOf(room, request);
    const moved = await move(room, request, recording);
    const was = new URLSearchParams({ moved: String(moved.id), pupil: recording.pupil.slug, piece: recording.piece.slug });
    response.redirect(303, `/?${was.toString()}`);
  });
  arrivalRoutes(room, router);
  return router;
}

/** Back to the pupil's page where the form says so, else to the recording's line on the desk. */
function back(response: Response, request: Request, recording: FiledRecording, query: string): void {
  const page = fieldOf(request, 'back') === 'pupil' ? pupilAddress(recording.pupil.slug) : '/';
  response.redirect(303, `${page}${query}${query === '' ? `#recording-${recording.id}` : ''}`);
}

/** Asks whose a recording is, and which piece. */
function movePage(room: Room, recording: FiledRecording) {
  const { pupil, piece } = recording;
  const titles = titlesOf(room);
  return {
    view: 'move',
    title: 'Whose is it?',
    pupil: pupil.name,
    piece: piece.title,
    when: momentInWords(recording.receivedAt, room.now()),
    address: recordingAddress(recording),
    pupils: room.store.pupils().map(({ id, slug, name }) => ({ slug, name, chosen: id === pupil.id })),
    pieces: room.store.pieces().map(({ id, slug, title }) => ({ slug, name: titles.get(id)?.whole ?? title, chosen: id === piece.id })),
  };
}

/**
 * Gives a recording to another pupil, or reads it against another piece.
 * @throws InputError `wrong-piece` where it is not of that piece, `not-found` where pupil or piece are not there
 */
async function move(room: Room, request: Request, recording: FiledRecording): Promise<FiledRecording> {
  const pupil = pupilSaid(room, fieldsOf(request)) ?? recording.pupil;
  const piece = room.store.piece(fieldOf(request, 'piece')) ?? recording.piece;
  if (piece.id === recording.piece.id) return room.store.moveRecording(recording.id, { pupilId: pupil.id, scoreId: recording.scoreId, line: recording.line });
  const { reading } = await readAgainst(room, { piece, file: recordingFile(room.store, recording) }, () => undefined);
  const moved = room.store.moveRecording(recording.id, { pupilId: pupil.id, scoreId: room.store.scoreOfPiece(piece.id).id, line: deskLine(reading, 'british') });
  room.glances.keep(moved, reading);
  return moved;
}

/** Files that wait: whose they are, which piece, or put aside. */
function arrivalRoutes(room: Room, router: Router): void {
  const form = urlencoded({ extended: false, limit: LARGEST_FORM, parameterLimit: 10 });
  router.post('/arrivals/:id', form, async (request, response) => {
    const arrival = arrivalOf(room, request);
    const filed = await placeArrival(room, arrival, { pupil: pupilSaid(room, fieldsOf(request)), piece: room.store.piece(fieldOf(request, 'piece')) });
    sendPage(response, deskPage(room, { filed: [filed], status: filed.ok ? 200 : 422 }));
  });
  router.post('/arrivals/:id/aside', form, (request, response) => {
    const { id } = arrivalOf(room, request);
    room.store.setAside(id, true);
    response.redirect(303, `/?aside=${id}`);
  });
  router.post('/arrivals/:id/back', form, (request, response) => {
    room.store.setAside(arrivalOf(room, request).id, false);
    response.redirect(303, '/#waiting');
  });
}

/** @throws InputError code `not-found` */
function arrivalOf(room: Room, request: Request): Arrival {
  const asked = String(request.params['id']);
  const arrival = /^\d{1,12}$/.test(asked) ? room.store.arrival(Number(asked)) : null;
  if (arrival === null) throw new InputError('not-found', 'This file waits no longer: it has found its place. The desk shows where.');
  return arrival;
}

/** The two fields that say whose a recording is. */
function fieldsOf(request: Request): ReadonlyMap<string, string> {
  return new Map(['pupil', 'newPupil'].map((name) => [name, fieldOf(request, name)]));
}
