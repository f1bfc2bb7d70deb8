/**
 * What happens to files that are put in: scores become pieces, recordings find their pupil and piece. Each file is read
 * before it is filed, so that the room never lists what it cannot show; the files as they came are kept untouched.
 */
import { InputError } from '../base/index.js';
import type { Piece, Pupil } from '../store/index.js';
import { refusal, type Filed } from './filed.js';
import { fileScore } from './fileScore.js';
import { fileTake, retryWaiting } from './fileTake.js';
import type { Tell } from './progress.js';
import type { Room } from './shared.js';
import type { Upload, UploadedFile } from './upload.js';

/** What became of a whole form. */
export interface FilingResult {
  readonly filed: readonly Filed[];
  /** Files that had waited for a score that came now. */
  readonly found: readonly Filed[];
}

/** Endings that tell a score among files that were dropped together. */
const SCORE_ENDING = /\.(musicxml|mxl|xml)$/i;

/**
 * Files everything that can be filed; what cannot is told file by file and costs the others nothing.
 * @param tell hears of each step with each file when it begins, and what became of the file
 */
export async function fileUpload(room: Room, upload: Upload, tell: Tell): Promise<FilingResult> {
  const refused = upload.refused.map((error) => refusal(room, error.place.file ?? 'the form', error));
  const scores = upload.files.filter((file) => isScore(file));
  const takes = upload.files.filter((file) => !isScore(file));
  const chosen = room.store.piece(upload.fields.get('piece') ?? '');
  const pupil = takes.length === 0 ? null : pupilSaid(room, upload.fields);
  // what came in a moment ago tells nothing of what comes with it
  const since = room.now();
  const done: { readonly outcome: Filed; readonly piece: Piece | null }[] = [];
  for (const score of scores) {
    const say = newsOf(score, tell);
    const result = await fileScore(room, score, { say, versionOf: scores.length === 1 ? chosen : null });
    say(result.outcome.text);
    done.push(result);
  }
  const cameAlong = done.flatMap(({ piece }) => (piece === null ? [] : [piece]));
  const filed = await Promise.all(takes.map(async (take) => {
    const say = newsOf(take, tell);
    const outcome = await fileTake(room, take, { pupil, piece: chosen, first: cameAlong, before: since, say });
    say(outcome.text);
    return outcome;
  }));
  const found = cameAlong.length === 0 ? [] : await retryWaiting(room);
  return { filed: [...refused, ...done.map(({ outcome }) => outcome), ...filed], found };
}

/** Says something of one file. */
function newsOf({ at, name }: UploadedFile, tell: Tell): (text: string) => void {
  return (text) => tell({ at, file: name, text });
}

/** The field tells; among files put in together the ending does. */
function isScore(file: UploadedFile): boolean {
  return file.field === 'score' || SCORE_ENDING.test(file.name);
}

/**
 * A new pupil where a name was typed, else the one chosen; null where each file shall find its own.
 * @throws InputError code `not-found` where the one chosen is no longer there
 */
export function pupilSaid(room: Room, fields: ReadonlyMap<string, string>): Pupil | null {
  const name = fields.get('newPupil')?.trim() ?? '';
  if (name !== '') return room.store.pupils().find((pupil) => pupil.name === name) ?? room.store.addPupil(name);
  const asked = fields.get('pupil') ?? '';
  const chosen = room.store.pupil(asked);
  if (asked !== '' && (chosen === null || chosen.removedAt !== null)) throw new InputError('not-found', 'This pupil is no longer here. Choose another and send again.');
  return chosen;
}
