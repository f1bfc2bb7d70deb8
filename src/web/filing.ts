/**
 * What happens to files that are put in: scores become pieces, recordings find their piece. Each file is read
 * before it is kept, so that the room never lists what it cannot show; the files as they came are kept untouched.
 */
import { InputError } from '../base/index.js';
import type { IncomingFile, Piece, Pupil } from '../store/index.js';
import { deskLine } from './deskLine.js';
import { told } from './errors.js';
import { findPiece, readAgainst } from './findPiece.js';
import { partChoice } from './partChoice.js';
import type { Tell } from './progress.js';
import { pieceAddress, pupilAddress, type Room } from './shared.js';
import { titlesOf } from './titles.js';
import type { Upload, UploadedFile } from './upload.js';

/** What became of one file. */
export interface Filed {
  readonly file: string;
  /** In words: what was done, or what is wrong and what to do next. */
  readonly text: string;
  readonly ok: boolean;
  /** Page of what was filed. */
  readonly href: string | null;
}

/** What became of a whole form. */
export interface FilingResult {
  readonly filed: readonly Filed[];
  /** The pupil the recordings belong to. */
  readonly pupil: Pupil | null;
  /** Numbers of recordings that were filed. */
  readonly recordings: readonly number[];
  readonly piece: Piece | null;
}

/** Endings that tell a score among files that were dropped together. */
const SCORE_ENDING = /\.(musicxml|mxl|xml)$/i;

/**
 * Files everything that can be filed; what cannot is told file by file and costs the others
 * nothing.
 * @param tell hears of each step with each file when it begins, and what became of the file
 */
export async function fileUpload(room: Room, upload: Upload, tell: Tell): Promise<FilingResult> {
  const filed: Filed[] = upload.refused.map((error) => refusal(room, error.place.file ?? 'the form', error));
  const scores = upload.files.filter((file) => isScore(file));
  const takes = upload.files.filter((file) => !isScore(file));
  // asked before anything is kept: who has to send again must not find half of it here already
  const pupil = takes.length === 0 ? null : pupilOf(room, upload.fields);
  let piece = room.store.piece(upload.fields.get('piece') ?? '');
  for (const score of scores) {
    const say = newsOf(score, tell);
    const { outcome, piece: added } = await fileScore(room, score, say);
    filed.push(outcome);
    say(outcome.text);
    piece = added ?? piece;
  }
  const recordings: number[] = [];
  for (const take of takes) {
    if (pupil === null) break;
    const say = newsOf(take, tell);
    const { outcome, id } = await fileRecording(room, take, { pupil, piece, say });
    filed.push(outcome);
    say(outcome.text);
    if (id !== null) recordings.push(id);
  }
  return { filed, pupil, recordings, piece };
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
 * A new pupil where a name was typed, else the one chosen.
 * @throws InputError code `not-found` where neither was
 */
function pupilOf(room: Room, fields: ReadonlyMap<string, string>): Pupil {
  const name = fields.get('newPupil')?.trim() ?? '';
  if (name !== '') return room.store.pupils().find((pupil) => pupil.name === name) ?? room.store.addPupil(name);
  const chosen = room.store.pupil(fields.get('pupil') ?? '');
  if (chosen === null) throw new InputError('not-found', 'The recording needs a pupil. Choose one, or type a new name, and send again.');
  return chosen;
}

/** Reads a score, and keeps it where it can be read. */
async function fileScore(room: Room, file: IncomingFile, say: (text: string) => void): Promise<{ readonly outcome: Filed; readonly piece: Piece | null }> {
  try {
    say('reading the score');
    const score = await room.pipeline.score(file);
    const title = score.title.trim() === '' ? file.name.replace(/\.[^.]*$/, '') : score.title;
    const piece = room.store.addPiece({ title: title.slice(0, 200), composer: score.composer, score: file });
    const part = partChoice(score, room.store.scoreOfPiece(piece.id));
    const text = `Filed as the score of ${titlesOf(room).get(piece.id)?.whole ?? piece.title}.${part === null ? '' : ` ${part.text}; its page lets you choose another.`}`;
    return { outcome: { file: file.name, ok: true, text, href: pieceAddress(piece.slug) }, piece };
  } catch (error) {
    return { outcome: refusal(room, file.name, error), piece: null };
  }
}

/** What became of a recording; its number where it was filed. */
interface FiledTake {
  readonly outcome: Filed;
  readonly id: number | null;
}

/** Reads a recording against its score, and keeps it where it is of that score. */
async function fileRecording(room: Room, file: IncomingFile, to: { pupil: Pupil; piece: Piece | null; say: (text: string) => void }): Promise<FiledTake> {
  try {
    const { piece, reading } = await (to.piece === null ? findPiece(room, file, to.say) : readAgainst(room, { piece: to.piece, file }, to.say));
    const score = room.store.scoreOfPiece(piece.id);
    const { recording, known } = room.store.addRecording({ pupilId: to.pupil.id, scoreId: score.id, file, line: deskLine(reading, 'british') });
    const where = `${to.pupil.name}, ${titlesOf(room).get(piece.id)?.whole ?? piece.title}`;
    const text = known ? `Was here already: ${where}.` : `Filed: ${where}.`;
    return { outcome: { file: file.name, ok: true, text, href: `${pupilAddress(to.pupil.slug)}/recordings/${recording.id}` }, id: recording.id };
  } catch (error) {
    return { outcome: refusal(room, file.name, error), id: null };
  }
}

/**
 * What is wrong with a file, in words.
 * @throws whatever is not about the file
 */
function refusal(room: Room, file: string, error: unknown): Filed {
  if (!(error instanceof InputError)) throw error;
  return { file, ok: false, text: told(error, room.language, file), href: null };
}
