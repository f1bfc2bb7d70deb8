/**
 * A recording on its way in: read against its score, given to its pupil, and said in words what that rests on. What the
 * room cannot tell it does not make up: the file waits on the desk until somebody says whose it is.
 */
import { InputError } from '../base/index.js';
import type { Arrival, IncomingFile, Piece, Pupil } from '../store/index.js';
import { deskLine } from './deskLine.js';
import { refusal, type Filed } from './filed.js';
import { findPiece, readAgainst, type ReadTake } from './findPiece.js';
import { namedIn, ownerOf, type Owner } from './findPupil.js';
import { recordingAddress, type Room } from './shared.js';
import { titlesOf } from './titles.js';

/** What is known of a recording before it is read. */
export interface TakeFiling {
  /** Said by somebody; null lets the room find out. */
  readonly pupil: Pupil | null;
  readonly piece: Piece | null;
  /** Pieces whose scores came along: tried before all others. */
  readonly first: readonly Piece[];
  /** Only recordings that came before this moment tell who has a piece in hand. */
  readonly before: Date;
  readonly say: (text: string) => void;
}

/** Files one recording, or lets it wait. */
export async function fileTake(room: Room, file: IncomingFile, to: TakeFiling): Promise<Filed> {
  try {
    const take = await pieceFor(room, file, to);
    if (take instanceof InputError) return waitForPiece(room, file, { pupil: to.pupil, error: take });
    const owner = to.pupil === null ? ownerOf(room, file.name, { pieceId: take.piece.id, before: to.before }) : { pupil: to.pupil, because: '' };
    return owner === null ? waitForPupil(room, file, take) : fileRead(room, file, { take, owner, pieceFound: to.piece === null });
  } catch (error) {
    return refusal(room, file.name, error);
  }
}

/** The piece that was said, or found; the error where none fits. */
async function pieceFor(room: Room, file: IncomingFile, { piece, first, say }: TakeFiling): Promise<ReadTake | InputError> {
  if (piece !== null) return readAgainst(room, { piece, file }, say);
  const here = await firstThatFits(room, file, { first, say });
  if (here !== null) return here;
  try {
    return await findPiece(room, file, say);
  } catch (error) {
    if (error instanceof InputError && error.code === 'wrong-piece') return error;
    throw error;
  }
}

/** The first of some pieces that the recording is of, or null. */
async function firstThatFits(room: Room, file: IncomingFile, { first, say }: Pick<TakeFiling, 'first' | 'say'>): Promise<ReadTake | null> {
  for (const piece of first) {
    try {
      return await readAgainst(room, { piece, file }, say);
    } catch (error) {
      if (!(error instanceof InputError && error.code === 'wrong-piece')) throw error;
    }
  }
  return null;
}

/** Keeps a recording that was read, with its glance. */
function fileRead(room: Room, file: IncomingFile, { take, owner, pieceFound }: { readonly take: ReadTake; readonly owner: Owner; readonly pieceFound: boolean }): Filed {
  const { piece, reading } = take;
  const { recording, known } = room.store.addRecording({ pupilId: owner.pupil.id, scoreId: room.store.scoreOfPiece(piece.id).id, file, line: deskLine(reading, 'british') });
  const filed = room.store.recording(recording.id);
  if (filed === null) throw new RangeError('a recording that was just filed is not there');
  room.glances.keep(filed, reading);
  const where = `${owner.pupil.name}, ${titlesOf(room).get(piece.id)?.whole ?? piece.title}`;
  const why = [owner.because, pieceFound && owner.because !== '' ? 'the piece by its notes' : ''].filter((part) => part !== '').join('; ');
  const text = known ? `Was here already: ${where}.` : `Filed: ${where}${why === '' ? '' : ` (${why})`}.`;
  return { file: file.name, ok: true, text, href: recordingAddress(filed), guessed: owner.because === '' ? null : filed.id };
}

/** The piece is known, the pupil is not. */
function waitForPupil(room: Room, file: IncomingFile, { piece, reading }: ReadTake): Filed {
  room.store.addArrival({ file, pupilId: null, scoreId: room.store.scoreOfPiece(piece.id).id, line: deskLine(reading, 'british') });
  return { file: file.name, ok: true, text: `It is of ${titlesOf(room).get(piece.id)?.whole ?? piece.title}. Whose is it? It waits below until you say.`, href: null, guessed: null };
}

/** No piece fits; the pupil may be known. */
function waitForPiece(room: Room, file: IncomingFile, { pupil, error }: { readonly pupil: Pupil | null; readonly error: InputError }): Filed {
  const named = namedIn(file.name, room.store.pupils());
  const owner = pupil ?? (named.length === 1 ? named[0] : undefined);
  room.store.addArrival({ file, pupilId: owner?.id ?? null, scoreId: null, line: '' });
  return { file: file.name, ok: false, text: error.message, href: null, guessed: null };
}

/** Tries files that wait for their piece once more, now that new scores are here; what became of those that found one. */
export async function retryWaiting(room: Room): Promise<readonly Filed[]> {
  const out: Filed[] = [];
  for (const arrival of room.store.arrivals().filter(({ scoreId }) => scoreId === null)) {
    const filed = await placeArrival(room, arrival, { pupil: null, piece: null });
    if (filed.ok) out.push(filed);
  }
  return out;
}

/** Files a file that waits, as far as it is known by now whose it is and what; otherwise it goes on waiting. */
export async function placeArrival(room: Room, arrival: Arrival, { pupil, piece }: { readonly pupil: Pupil | null; readonly piece: Piece | null }): Promise<Filed> {
  const file = { name: arrival.fileName, bytes: room.store.bytesOf(arrival) };
  const known = arrival.scoreId === null ? null : (room.store.pieces().find(({ id }) => id === room.store.score(arrival.scoreId ?? 0).pieceId) ?? null);
  const owner = pupil ?? room.store.pupils().find(({ id }) => id === arrival.pupilId) ?? null;
  const filed = await fileTake(room, file, { pupil: owner, piece: piece ?? known, first: [], before: room.now(), say: () => undefined });
  if (filed.href !== null) room.store.endArrival(arrival.id);
  return filed;
}
