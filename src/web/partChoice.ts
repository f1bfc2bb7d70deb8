/**
 * Which part of a score is read. Most files hold one piano and nothing is said; where there was a choice, the page says
 * what was taken and lets the teacher take another. The choice is kept with the score.
 */
import { Router, urlencoded } from 'express';
import { countInWords, InputError, listInWords, ordinalInWords } from '../base/index.js';
import type { Score } from '../score/index.js';
import type { StoredScore } from '../store/index.js';
import { fieldOf } from './commentForm.js';
import { pieceAddress, scoreFile, type Room } from './shared.js';

/** What a page says of the parts of a score. */
export interface PartChoice {
  /** "Read from “Piano”, one of three parts". */
  readonly text: string;
  /** What can be read: the value of a form's field, and its name. */
  readonly choices: readonly { readonly value: string; readonly name: string; readonly chosen: boolean }[];
}

/** Largest form of the choice, bytes: one id of a part. */
const LARGEST_FORM = 4096;

/**
 * What was taken from a score of several parts; null where there was nothing to choose: one part with notes, or two that
 * are the two hands and are read together.
 */
export function partChoice(score: Score, stored: StoredScore): PartChoice | null {
  const parts = score.parts.filter((part) => part.notes > 0 || part.chosen);
  const read = parts.filter((part) => part.chosen);
  if (parts.length < 2 || (stored.part === null && parts.length === 2 && read.length === 2)) return null;
  const names = namesOf(score);
  const name = (id: string): string => names.get(id) ?? id;
  const kind = score.source === 'midi' ? 'tracks' : 'parts';
  const together = `All ${countInWords(parts.length)} ${kind} are read together`;
  const some = `Read from ${listInWords(read.map(({ id }) => name(id)))}${read.length > 1 ? ' together, of' : ', one of'} ${countInWords(parts.length)} ${kind}`;
  const taken = read.length === parts.length ? together : some;
  return {
    text: stored.part === null ? taken : `${taken}, as you chose`,
    choices: [
      { value: '', name: score.source === 'midi' ? 'all together' : 'the piano, found by itself', chosen: stored.part === null },
      ...parts.map(({ id, notes }) => ({ value: id, name: `${name(id)}: ${notes} notes`, chosen: stored.part === id })),
    ],
  };
}

/** Each part's name by its id; parts without a name, or of the same one, are told by their place. */
function namesOf({ parts, source }: Score): ReadonlyMap<string, string> {
  const kind = source === 'midi' ? 'track' : 'part';
  return new Map(parts.map(({ id, name }, i) => {
    const place = `${ordinalInWords(i + 1)} ${kind}`;
    if (name.trim() === '') return [id, `the ${place}`];
    return [id, parts.filter((other) => other.name === name).length === 1 ? `“${name}”` : `“${name}” (${place})`];
  }));
}

/** Takes the choice of a part. */
export function partRoutes(room: Room): Router {
  const router = Router();
  router.post('/pieces/:slug/part', urlencoded({ extended: false, limit: LARGEST_FORM, parameterLimit: 4 }), async (request, response, next) => {
    const piece = room.store.piece(request.params.slug);
    if (piece === null) {
      next();
      return;
    }
    const part = fieldOf(request, 'part') === '' ? null : fieldOf(request, 'part');
    const stored = room.store.scoreOfPiece(piece.id);
    await checkPart(room, { ...stored, part });
    room.store.choosePart(stored.id, part);
    response.redirect(303, pieceAddress(piece.slug));
  });
  return router;
}

/**
 * Reads the score with that part before anything is changed.
 * @throws InputError `no-such-part`, or `no-notes` where it is silent
 */
async function checkPart(room: Room, stored: StoredScore): Promise<void> {
  const score = await room.pipeline.score(scoreFile(room.store, stored));
  if (score.occurrences.length === 0) throw new InputError('no-notes', 'This part holds rests alone, so nothing could be matched with it. Go back and choose another.');
}
