/**
 * Whose notes are these? A recording that came without the name of its piece is read against the scores in the room, the
 * likeliest first, until one explains it. A score that cannot be read says nothing about the recording: it is passed over, and named only where nothing fits.
 */
import { InputError, listInWords } from '../base/index.js';
import type { Reading, SourceFile } from '../pipeline/index.js';
import type { IncomingFile, Piece } from '../store/index.js';
import { namedIn } from './findPupil.js';
import { scoreFile, type Room } from './shared.js';
import { titlesOf } from './titles.js';

/** So many of a pupil's recordings tell what is in hand. */
const PIECES_IN_HAND = 20;

/** A recording that was read, and the piece it is of. */
export interface ReadTake {
  readonly piece: Piece;
  readonly reading: Reading;
}

/**
 * One recording against the newest score of a piece.
 * @param tell hears when reading the score and when matching begins
 * @throws InputError about either file; code `wrong-piece` where the recording is not of that score
 */
export async function readAgainst(room: Room, { piece, file }: { readonly piece: Piece; readonly file: IncomingFile }, tell: (text: string) => void): Promise<ReadTake> {
  const score = scoreFile(room.store, room.store.scoreOfPiece(piece.id));
  tell(`reading the score of “${piece.title}”`);
  await room.pipeline.analysis(score);
  tell(`matching its notes with “${piece.title}”`);
  return { piece, reading: await room.pipeline.reading(score, file) };
}

/** A share of explained notes (>=) that no other piece would reach: pupils' slips cost less than a tenth. */
const SURE_SHARE = 0.9;

/**
 * The piece whose score explains most of the notes, or the first that explains nearly all of them.
 * @param tell hears which piece is being tried
 * @throws InputError code `wrong-piece` where none does; whatever is wrong with the recording itself
 */
export async function findPiece(room: Room, file: IncomingFile, tell: (text: string) => void): Promise<ReadTake> {
  let best: ReadTake | null = null;
  const unusable: Piece[] = [];
  const pieces = likeliestFirst(room, file.name);
  for (const [i, piece] of pieces.entries()) {
    tell(`finding its piece: “${piece.title}”, ${i + 1} of ${pieces.length}`);
    const trial = await tryPiece(room, piece, file);
    if (trial === 'score unusable') unusable.push(piece);
    else if (trial !== 'another piece' && matched(trial) > matched(best)) best = trial;
    if (matched(best) >= SURE_SHARE) break;
  }
  if (best === null) throw nothingFits(room, unusable);
  return best;
}

/** All pieces: those that the file's name speaks of, then those that its pupil has in hand, then the rest. */
function likeliestFirst(room: Room, fileName: string): readonly Piece[] {
  const owner = namedIn(fileName, room.store.pupils());
  const inHand = new Set(owner.flatMap(({ id }) => room.store.recordings({ pupilId: id, most: PIECES_IN_HAND }).map(({ piece }) => piece.id)));
  const name = plain(fileName);
  const rank = ({ id, title }: Piece): number => (plain(title) !== '' && name.includes(plain(title)) ? 0 : inHand.has(id) ? 1 : 2);
  return [...room.store.pieces()].sort((a, b) => rank(a) - rank(b));
}

/** Letters and figures alone, in lower case. */
function plain(text: string): string {
  return text.toLowerCase().replace(/[^\p{L}\p{N}]+/gu, '');
}

/** What came of one trial: the reading, or why there is none. */
async function tryPiece(room: Room, piece: Piece, file: IncomingFile): Promise<ReadTake | 'another piece' | 'score unusable'> {
  const score = scoreOf(room, piece);
  if (score === null) return 'score unusable';
  try {
    return { piece, reading: await room.pipeline.reading(score, file) };
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    if (error.code === 'wrong-piece') return 'another piece';
    if (error.place.file !== file.name) return 'score unusable';
    throw error;
  }
}

/** A piece's newest score, or null where its file is gone. */
function scoreOf(room: Room, piece: Piece): SourceFile | null {
  try {
    const score = scoreFile(room.store, room.store.scoreOfPiece(piece.id));
    // both files may have come under one name; which one an error is about must stay clear
    return { ...score, name: `the score ${score.name}` };
  } catch (error) {
    if (error instanceof InputError) return null;
    throw error;
  }
}

/** Share of the performed notes that the score explains; 0 before anything was found. */
function matched(take: ReadTake | null): number {
  return take?.reading.alignment.matched ?? 0;
}

/** Says that no piece fits, and which ones could not be tried. */
function nothingFits(room: Room, unusable: readonly Piece[]): InputError {
  const sentence = 'None of the pieces here fits this recording. It waits on the desk until its score is put in.';
  const names = titlesOf(room);
  const titles = listInWords(unusable.map((piece) => `“${names.get(piece.id)?.whole ?? piece.title}”`));
  const untried = unusable.length === 0 ? '' : ` Not tried, because no notes could be read from the score: ${titles}.`;
  return new InputError('wrong-piece', sentence + untried);
}
