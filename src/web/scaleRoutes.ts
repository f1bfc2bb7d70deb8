/** Scales and arpeggios without a file: what is chosen becomes a score like any other, and is there to be recorded. */
import { Router, urlencoded, type Request } from 'express';
import { SCALE_KINDS, scaleKindInWords, scaleProblem, scaleTitle, scaleXml, TONICS, type ScaleHands, type ScalePlan, type ScaleTouch } from '../score/index.js';
import type { Piece } from '../store/index.js';
import { pieceAddress, type Room } from './shared.js';
import { sendPage } from './views.js';

/** Largest form, bytes: seven short choices. */
const LARGEST_FORM = '2kb';

/** What the form offers beside keys and kinds. */
const HANDS: readonly { readonly value: ScaleHands; readonly name: string }[] = [
  { value: 'together', name: 'hands together' }, { value: 'right', name: 'right hand' }, { value: 'left', name: 'left hand' }, { value: 'contrary', name: 'contrary motion' },
];
const TOUCHES: readonly { readonly value: ScaleTouch; readonly name: string }[] = [{ value: 'legato', name: 'legato' }, { value: 'staccato', name: 'staccato' }, { value: 'plain', name: 'not marked' }];
const NOTES: readonly { readonly value: ScalePlan['notesPerBeat']; readonly name: string }[] = [
  { value: 4, name: 'semiquavers' }, { value: 3, name: 'triplets' }, { value: 2, name: 'quavers' }, { value: 1, name: 'crotchets' },
];

/** What is chosen at first: what a pupil plays most. */
const USUAL: ScalePlan = { tonic: 'C', kind: 'major', octaves: 2, hands: 'together', tempo: 60, notesPerBeat: 4, touch: 'legato' };

/** The form, and what it makes. */
export function scaleRoutes(room: Room): Router {
  const router = Router();
  router.get('/scales', (_request, response) => sendPage(response, formPage(USUAL, null)));
  router.post('/scales', urlencoded({ extended: false, limit: LARGEST_FORM, parameterLimit: 8 }), (request, response) => {
    const plan = planIn(request);
    const problem = scaleProblem(plan);
    if (problem !== null) sendPage(response, { ...formPage(plan, problem), status: 422 });
    else response.redirect(303, pieceAddress(pieceOf(room, plan).slug));
  });
  return router;
}

/** The piece of a scale: the one that is here already under its name and tempo, else a new one. */
function pieceOf(room: Room, plan: ScalePlan): Piece {
  const title = scaleTitle(plan);
  const bytes = new TextEncoder().encode(scaleXml(plan));
  const known = room.store.pieces().find((piece) => piece.title === title && sameBytes(room.store.bytesOf(room.store.scoreOfPiece(piece.id)), bytes));
  return known ?? room.store.addPiece({ title, composer: '', score: { name: `${title}.musicxml`, bytes } });
}

/** True for two files that are the same. */
function sameBytes(one: Uint8Array, other: Uint8Array): boolean {
  return one.length === other.length && one.every((byte, i) => byte === other[i]);
}

/** The page with its choices. */
function formPage(plan: ScalePlan, problem: string | null) {
  return {
    view: 'scales', title: 'Scales and arpeggios', problem, plan, hands: HANDS, touches: TOUCHES, notes: NOTES, octaves: ['one', 'two', 'three', 'four'],
    tonics: TONICS.map((value) => ({ value, name: value.replace('#', ' sharp').replace(/b$/, ' flat') })), kinds: SCALE_KINDS.map((value) => ({ value, name: scaleKindInWords(value) })),
  };
}

/** What was chosen; what is not among the choices is as usual. */
function planIn(request: Request): ScalePlan {
  const body: unknown = request.body;
  const fields = new Map<string, unknown>(Object.entries(typeof body === 'object' && body !== null ? body : {}));
  const chosen = <T>(name: string, choices: readonly T[], usual: T): T => choices.find((choice) => String(choice) === fields.get(name)) ?? usual;
  return {
    tonic: chosen('tonic', TONICS, USUAL.tonic), kind: chosen('kind', SCALE_KINDS, USUAL.kind), octaves: chosen('octaves', [1, 2, 3, 4], USUAL.octaves),
    hands: chosen('hands', HANDS.map(({ value }) => value), USUAL.hands), touch: chosen('touch', TOUCHES.map(({ value }) => value), USUAL.touch),
    notesPerBeat: chosen('notes', NOTES.map(({ value }) => value), USUAL.notesPerBeat), tempo: Number(fields.get('tempo')),
  };
}
